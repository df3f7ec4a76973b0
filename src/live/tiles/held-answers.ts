import type { SessionState } from "../../../shared/session/state.ts";

/** What is known of the cues, as far as an answer has to wait for it. */
type Cues = Pick<SessionState, "cues">;

/** Answers that wait until the log has its verdict on their cue. */
export interface HeldAnswers {
  /**
   * A tile asks as soon as its sign is painted, and the log says a moment later that the cue was shown:
   * an answer between the two is kept here rather than refused there.
   *
   * @returns whether the cue reached the class, once the log says so; false too when nobody waits any more
   */
  until(cue: number): Promise<boolean>;
  /** Told of the log's state whenever it has changed. */
  look(now: Cues): void;
  /** Lets go of all that wait. */
  drop(): void;
}

/** See `HeldAnswers`. */
export function heldAnswers(): HeldAnswers {
  const waiting = new Map<number, PromiseWithResolvers<boolean>>();
  let known: Cues = { cues: new Map() };

  const settle = (cue: number, isDelivered: boolean) => {
    waiting.get(cue)?.resolve(isDelivered);
    waiting.delete(cue);
  };
  const verdictOn = (cue: number): boolean | null => {
    const standing = known.cues.get(cue)?.standing;
    if (standing === "delivered") return true;
    return standing === "undelivered" ? false : null;
  };

  return {
    until: (cue) => {
      const verdict = verdictOn(cue);
      if (verdict !== null) return Promise.resolve(verdict);
      const wait = waiting.get(cue) ?? Promise.withResolvers<boolean>();
      waiting.set(cue, wait);
      return wait.promise;
    },
    look: (now) => {
      known = now;
      for (const cue of [...waiting.keys()]) {
        const verdict = verdictOn(cue);
        if (verdict !== null) settle(cue, verdict);
      }
    },
    drop: () => {
      for (const cue of [...waiting.keys()]) settle(cue, false);
    },
  };
}
