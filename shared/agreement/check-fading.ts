/** How often a student is checked: at one cue in this many, drawn so that nobody can tell which. */
export const checkSteps = [1, 2, 4, 10] as const;
export type CheckStep = (typeof checkSteps)[number];

/** When checks are thinned and when they come back. Common practice, no source. */
export const fadingRule = {
  /** Checks must have held at the present step over this many sessions ... */
  fewestSessions: 3,
  /** ... and this many compared cues ... */
  fewestChecks: 10,
  /** ... with at least this share matching, all of them together. */
  agreement: 0.8,
} as const;

/** One session's checks of a student at the present step. */
export type CheckedSession = {
  readonly compared: number;
  readonly matching: number;
};

export type FadingDecision = {
  readonly every: CheckStep;
  readonly change: "thin" | "stay" | "return";
  readonly reason:
    | "agreement-held"
    | "agreement-fell"
    | "few-checks"
    | "few-sessions"
    /** Held, and already at the thinnest step: checks never end altogether. */
    | "thinnest";
  /** The inputs, for showing beside the decision. */
  readonly sessions: number;
  readonly compared: number;
  readonly matching: number;
};

/**
 * The step at which to check a student from now on: every cue, then every 2nd, 4th, 10th as agreement
 * holds, and straight back to every cue when it does not.
 *
 * `sessions` are those since the present step began; sessions without a comparison are ignored. The
 * return to every cue is taken as soon as ten checks could no longer reach 80 %, without waiting for
 * ten. That checks go from continuous to intermittent follows Hundert & Bucher (1978) J Appl Behav
 * Anal 11:304; the steps and the counts are common practice, no source.
 *
 * @throws RangeError when a session matches more cues than it compares.
 */
export function fadeChecks(
  present: CheckStep,
  sessions: readonly CheckedSession[],
): FadingDecision {
  const wrong = sessions.find(({ compared, matching }) => matching < 0 || matching > compared);
  if (wrong) throw new RangeError(`${wrong.matching} of ${wrong.compared} checks cannot match.`);

  const checked = sessions.filter(({ compared }) => compared > 0);
  const compared = checked.reduce((total, session) => total + session.compared, 0);
  const matching = checked.reduce((total, session) => total + session.matching, 0);
  const inputs = { sessions: checked.length, compared, matching };

  if (fell(compared, matching))
    return {
      every: 1,
      change: present === 1 ? "stay" : "return",
      reason: "agreement-fell",
      ...inputs,
    };
  if (compared < fadingRule.fewestChecks)
    return { every: present, change: "stay", reason: "few-checks", ...inputs };
  if (checked.length < fadingRule.fewestSessions)
    return { every: present, change: "stay", reason: "few-sessions", ...inputs };

  const thinner = checkSteps.find((step) => step > present);
  return thinner === undefined
    ? { every: present, change: "stay", reason: "thinnest", ...inputs }
    : { every: thinner, change: "thin", reason: "agreement-held", ...inputs };
}

function fell(compared: number, matching: number): boolean {
  const { fewestChecks, agreement } = fadingRule;
  if (compared >= fewestChecks) return matching / compared < agreement;
  const allowed = Math.floor(fewestChecks * (1 - agreement) + 1e-9);
  return compared - matching > allowed;
}
