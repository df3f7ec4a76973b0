import type { SessionCommand } from "../../../shared/session/decide.ts";
import type { Store } from "../../store/store.ts";
import type { Cancel, DesktopClock } from "../base/clock.ts";
import type { Conductor } from "../live/conductor.ts";

/** Answers that come within this time are written together, in ms of real time. */
const groupMs = 20;

/** An answer of a seat, or that it showed no cue, as the session's rules are asked about it. */
export type SeatAnswer = Extract<
  SessionCommand,
  { readonly kind: "mark" | "say-away" | "leave-undelivered" }
>;

/** What became of an answer: kept, refused by the session's rules, or not written because the disk failed. */
export type MarkOutcome = "kept" | "failed" | { readonly refused: string };

interface Waiting {
  readonly sessionId: string;
  readonly answer: SeatAnswer;
  readonly tell: (outcome: MarkOutcome) => void;
}

/**
 * Writes answers through the conductor's one door. Those that come together are one transaction: a class
 * answers within two seconds of a cue, and each answer is on the disk before its device is told so.
 */
export function seatMarks(
  { transaction }: Pick<Store, "transaction">,
  running: Pick<Conductor, "commandAll">,
  clock: Pick<DesktopClock, "after" | "speed">,
  /** What is held in memory may be ahead of the disk: it is read anew. */
  recover: () => void,
) {
  let waiting: Waiting[] = [];
  let cancel: Cancel | null = null;

  function flush(): void {
    cancel?.();
    cancel = null;
    const bySession = Map.groupBy(waiting, ({ sessionId }) => sessionId);
    waiting = [];
    for (const [sessionId, together] of bySession) {
      const outcomes = written(sessionId, together);
      for (const [index, { tell }] of together.entries()) tell(outcomes[index] ?? "failed");
    }
  }

  function written(sessionId: string, together: readonly Waiting[]): MarkOutcome[] {
    const commands = together.map(({ answer }) => answer);
    try {
      return running
        .commandAll(sessionId, commands, transaction)
        .map((refusal) => (refusal === null ? "kept" : { refused: refusal.code }));
    } catch {
      recover();
      return together.map(() => "failed");
    }
  }

  return {
    /** Keeps an answer soon, and tells what became of it once that is durable. */
    keep(sessionId: string, answer: SeatAnswer, tell: (outcome: MarkOutcome) => void): void {
      waiting.push({ sessionId, answer, tell });
      cancel ??= clock.after(groupMs * clock.speed, flush);
    },
    /** Writes at once what waits. */
    flush,
  };
}
export type SeatMarks = ReturnType<typeof seatMarks>;
