/** What the conductor answers when asked for its clock. */
export interface ConductorTime {
  /** Its monotonic clock, in ms of session speed. */
  readonly monotonicMs: number;
  /** Its ms per real ms: 1, or more when a session is walked through faster. */
  readonly speed: number;
}

/** Turns moments of the conductor's clock into moments of performance.now() and back. */
export interface ClockSync {
  /** Asks again; keeps what it knew when nobody answers, and then rejects. */
  refresh(): Promise<void>;
  /** Asks once where nothing is known yet: enough to place a cue, at once even where answers are slow. */
  first(): Promise<void>;
  /** performance.now() at a moment of the conductor's clock; null before the first answer. */
  pageMsAt(monotonicMs: number): number | null;
  /** The conductor's clock at a moment of performance.now(); null before the first answer. */
  monotonicMsAt(pageMs: number): number | null;
  /** At most so far off, in real ms: half the round trip of the answer in use. Null before the first. */
  uncertaintyMs(): number | null;
  /** Refreshes at once and then again and again until it is stopped; sooner while it is uncertain. */
  keepFresh(onTrouble: (problem: unknown) => void): () => void;
}

interface Answer extends ConductorTime {
  /** The page's moment that the answer belongs to: halfway between asking and hearing. */
  readonly pageMs: number;
  readonly roundTripMs: number;
}

const pings = 7;
const refreshMs = 20_000;
/** Answers that came slowly, as on a busy machine, are asked for again sooner: a cue is no better than they are. */
const soonMs = 2_000;
const goodMs = 1;
/** Two clocks of one machine drift apart by less than this, in ms for each ms that has gone by. */
const driftBound = 0.0002;

/**
 * Estimates how the conductor's clock lies against the page's, from several questions of which the
 * one with the shortest round trip is kept (Cristian's method: the answer was given somewhere within
 * the round trip, so halfway is off by half of it at most). An older answer is kept as long as it is
 * still the better one, drift counted in; a change of speed, or an answer that contradicts it, ends it.
 */
export function createClockSync(options: {
  readonly ask: () => Promise<ConductorTime>;
  readonly nowMs: () => number;
  readonly after: (ms: number, then: () => void) => () => void;
}): ClockSync {
  const { ask, nowMs, after } = options;
  let best: Answer | null = null;

  async function ping(): Promise<Answer> {
    const askedMs = nowMs();
    const { monotonicMs, speed } = await ask();
    const heardMs = nowMs();
    const roundTripMs = heardMs - askedMs;
    return { monotonicMs, speed, roundTripMs, pageMs: askedMs + roundTripMs / 2 };
  }

  const askOnce = async () => {
    const fresh = await ping();
    // Compared with what is known by now: another question may have been answered meanwhile.
    best = better(best, fresh);
  };

  const refresh = async () => {
    for (let count = 0; count < pings; count++) await askOnce();
  };

  return {
    refresh,
    first: async () => {
      if (best === null) await askOnce();
    },
    pageMsAt(monotonicMs) {
      return best && best.pageMs + (monotonicMs - best.monotonicMs) / best.speed;
    },
    monotonicMsAt(pageMs) {
      return best && best.monotonicMs + (pageMs - best.pageMs) * best.speed;
    },
    uncertaintyMs: () => best && boundMs(best, nowMs()),
    keepFresh(onTrouble) {
      let stopped = false;
      let cancel = () => {};
      const again = async () => {
        await refresh().catch(onTrouble);
        const isGood = best !== null && boundMs(best, nowMs()) <= goodMs;
        if (!stopped) cancel = after(isGood ? refreshMs : soonMs, again);
      };
      void again();
      return () => {
        stopped = true;
        cancel();
      };
    },
  };
}

/** How far off an answer may be at a later moment, in real ms. */
function boundMs(answer: Answer, atMs: number): number {
  return answer.roundTripMs / 2 + driftBound * Math.max(0, atMs - answer.pageMs);
}

function better(kept: Answer | null, fresh: Answer): Answer {
  if (!kept || kept.speed !== fresh.speed) return fresh;
  const bound = boundMs(kept, fresh.pageMs);
  const expectedMs = kept.monotonicMs + (fresh.pageMs - kept.pageMs) * kept.speed;
  const apartMs = Math.abs(fresh.monotonicMs - expectedMs) / kept.speed;
  // Both cannot be right: the conductor started anew, or a clock was stopped.
  if (apartMs > bound + fresh.roundTripMs / 2) return fresh;
  return fresh.roundTripMs / 2 <= bound ? fresh : kept;
}
