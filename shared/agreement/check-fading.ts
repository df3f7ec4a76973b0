import { beatsAlwaysOn, type ChecksCounted } from "./match-reading.ts";
import { agreementThresholds } from "./thresholds.ts";

/** How often a student is checked: at one cue in this many, which `spotCheckDraw` draws. */
export const checkSteps = [1, 2, 4, 10] as const;
export type CheckStep = (typeof checkSteps)[number];

/** When checks are thinned and when they come back. The counts: common practice, no source. */
export const fadingRule = {
  /** The newest checks that are judged reach over this many sessions ... */
  fewestSessions: 3,
  /** ... and this many compared cues ... */
  fewestChecks: agreementThresholds.fewestCompared,
  /** ... and hold with at least this share matching, all of them together. */
  agreement: agreementThresholds.acceptable,
} as const;

/** One session's checks of a student at the present step. */
export type CheckedSession = ChecksCounted;

export interface FadingDecision {
  readonly every: CheckStep;
  readonly change: "thin" | "stay" | "return";
  readonly reason:
    | "agreement-held"
    | "agreement-fell"
    | "few-checks"
    | "few-sessions"
    /** Held so far, and yet no better than a record that says "on" at every cue could have done. */
    | "could-be-always-on"
    /** Held, and already at the thinnest step: checks never end altogether. */
    | "thinnest";
  /** The checks that were judged, for showing beside the decision. */
  readonly sessions: number;
  readonly compared: number;
  readonly matching: number;
}

/**
 * The step at which to check a student from now on: every cue, then every 2nd, 4th, 10th as agreement
 * holds, and straight back to every cue when it does not.
 *
 * `sessions` are those since the present step began, oldest first; sessions without a comparison are
 * ignored. Judged are the newest of them that together hold three sessions and ten compared cues: a bad
 * first week is out of sight as soon as newer sessions say enough. Checks thin when the lower limit of
 * agreement is above what a record that says "on" at every cue would have reached (`beatsAlwaysOn`), in
 * those sessions or together with as many before them as it takes. The return to every cue is taken as
 * soon as ten checks could no longer reach 80 %, without waiting for ten. That checks go from continuous
 * to intermittent follows Hundert & Bucher (1978) J Appl Behav Anal 11:304; the steps, the counts and
 * the newest-first rule are common practice, no source.
 *
 * @throws RangeError when a judged session matches, or was seen on at, more cues than it compares.
 */
export function fadeChecks(
  present: CheckStep,
  sessions: readonly CheckedSession[],
): FadingDecision {
  const judged = newestThatDecide(sessions, fadingRule.fewestSessions);
  const { compared, matching } = together(judged);
  const inputs = { sessions: judged.length, compared, matching };

  if (fell(compared, matching))
    return {
      every: 1,
      change: present === 1 ? "stay" : "return",
      reason: "agreement-fell",
      ...inputs,
    };
  if (compared < fadingRule.fewestChecks)
    return { every: present, change: "stay", reason: "few-checks", ...inputs };
  if (judged.length < fadingRule.fewestSessions)
    return { every: present, change: "stay", reason: "few-sessions", ...inputs };

  const thinner = checkSteps.find((step) => step > present);
  if (thinner === undefined)
    return { every: present, change: "stay", reason: "thinnest", ...inputs };
  const convincing = newestThatConvince(sessions);
  return convincing === null
    ? { every: present, change: "stay", reason: "could-be-always-on", ...inputs }
    : { every: thinner, change: "thin", reason: "agreement-held", ...convincing };
}

/**
 * The fewest newest sessions, three and ten checks or more, that hold and beat a record that is always on;
 * null when there are none. To ask of one stretch after another cannot let such a record pass: it matches
 * exactly where on was seen.
 */
function newestThatConvince(sessions: readonly CheckedSession[]) {
  const checked = sessions.filter(({ compared }) => compared > 0);
  for (let count = fadingRule.fewestSessions; count <= checked.length; count += 1) {
    const judged = checked.slice(-count);
    const { compared, matching, seenOn } = together(judged);
    const held = compared >= fadingRule.fewestChecks && !fell(compared, matching);
    if (held && beatsAlwaysOn({ compared, matching, seenOn }))
      return { sessions: count, compared, matching };
  }
  return null;
}

/**
 * Whether a student's own records are to be checked at every cue, however thin the class's checks are:
 * the newest sessions that hold ten comparisons of this student match at less than 80 %, or no better than
 * a record that says "on" at every cue would, with two or more moments seen off. Nobody is singled out on
 * fewer. Common practice, no source.
 *
 * @throws RangeError as `fadeChecks`.
 */
export function staysAtEveryCue(sessions: readonly CheckedSession[]): boolean {
  const { compared, matching, seenOn } = together(newestThatDecide(sessions, 1));
  if (compared < fadingRule.fewestChecks) return false;
  const isNoBetterThanAlwaysOn = compared - seenOn >= 2 && matching <= seenOn;
  return fell(compared, matching) || isNoBetterThanAlwaysOn;
}

/** The newest sessions with comparisons that reach both counts, or all when they do not. */
function newestThatDecide(
  sessions: readonly CheckedSession[],
  fewestSessions: number,
): CheckedSession[] {
  const newest: CheckedSession[] = [];
  let checks = 0;
  for (let at = sessions.length - 1; at >= 0; at -= 1) {
    const session = sessions[at];
    if (session === undefined || session.compared === 0) continue;
    const { compared, matching, seenOn } = session;
    if (matching < 0 || matching > compared)
      throw new RangeError(`matching must be from 0 to ${compared}; got ${matching}.`);
    if (seenOn < 0 || seenOn > compared)
      throw new RangeError(`seenOn must be from 0 to ${compared}; got ${seenOn}.`);
    newest.push(session);
    checks += compared;
    if (checks >= fadingRule.fewestChecks && newest.length >= fewestSessions) break;
  }
  return newest;
}

function together(sessions: readonly CheckedSession[]): CheckedSession {
  return {
    compared: sessions.reduce((total, session) => total + session.compared, 0),
    matching: sessions.reduce((total, session) => total + session.matching, 0),
    seenOn: sessions.reduce((total, session) => total + session.seenOn, 0),
  };
}

function fell(compared: number, matching: number): boolean {
  const { fewestChecks, agreement } = fadingRule;
  if (compared >= fewestChecks) return matching / compared < agreement;
  const allowed = Math.floor(fewestChecks * (1 - agreement) + 1e-9);
  return compared - matching > allowed;
}
