import type { ToSeat } from "../../shared/seats/message.ts";
import type { SeatView } from "./seat-face.ts";
import type { SeatSocket } from "./seat-line.ts";
import type { ShownCue, shownCue } from "./shown-cue.ts";
import type { WaitingMark, waitingMarks } from "./waiting-marks.ts";
import { say } from "./words.ts";

/** How long an answer can be taken back, in ms. */
const undoMs = 10_000;
/** An answer that is not confirmed this soon is said to wait, in ms. */
const confirmWithinMs = 2_500;
/** Answers that waited are said again so many at a time. */
const mostAtOnce = 8;

interface OwnAnswerOptions {
  readonly line: Pick<SeatSocket, "send">;
  readonly waiting: ReturnType<typeof waitingMarks>;
  readonly asked: ReturnType<typeof shownCue>;
  readonly isOffline: () => boolean;
  readonly wentOffline: () => void;
  readonly draw: () => void;
}

/** The cue that is asked about, and this seat's answer to it until it is confirmed. */
export function ownAnswer(options: OwnAnswerOptions) {
  const { line, waiting, asked, isOffline, wentOffline, draw } = options;
  let session: string | null = null;
  let shown: ShownCue | null = null;
  /** What this device showed before the page was loaded again. */
  let before: ShownCue | null = asked.kept();
  let answer: SeatView["answer"] = "none";
  let undoUntil = 0;
  let remark = "";

  const isShown = (of: string, cue: number) =>
    shown !== null && shown.session === of && shown.cue === cue;

  function handIn(value: WaitingMark["value"]): void {
    if (shown === null) return;
    const mark = { session: shown.session, cue: shown.cue, value };
    waiting.add(mark);
    if (!handOver(mark)) wentOffline();
  }

  const handOver = (mark: WaitingMark): boolean => line.send(messageOf(mark));

  /** Nothing is called recorded before it is on the class's disk. */
  function awaitAnswer(): void {
    const at = shown;
    window.setTimeout(() => {
      if (shown !== at || answer !== "sent") return;
      answer = "waits";
      draw();
    }, confirmWithinMs);
  }

  function openUndo(): void {
    undoUntil = performance.now() + undoMs;
    window.setTimeout(draw, undoMs + 50);
  }

  return {
    view: (): Pick<SeatView, "cue" | "answer" | "canUndo" | "remark"> => ({
      cue: shown === null ? null : shown.cue,
      answer,
      canUndo: performance.now() < undoUntil,
      remark,
    }),

    /** A cue is shown, and asks. */
    ask(next: ShownCue): void {
      shown = next;
      asked.keep(next);
      answer = "none";
      remark = "";
      undoUntil = 0;
    },

    /** The session is told: a question of another one goes, and one from before a reload comes back. */
    follow(of: string | null, isAsked: boolean): void {
      if (of !== session) {
        session = of;
        if (shown !== null && shown.session !== of) shown = null;
        remark = "";
      }
      if (!isAsked) {
        shown = null;
        asked.forget();
      } else if (shown === null && before !== null && before.session === of) shown = before;
      before = null;
    },

    give(value: "on" | "off" | "away"): void {
      if (shown === null || answer !== "none") return;
      remark = "";
      handIn(value);
      answer = isOffline() ? "waits" : "sent";
      awaitAnswer();
      openUndo();
      draw();
    },

    undo(): void {
      if (shown === null || answer === "none") return;
      const isAway = answer === "away" || waiting.valueOf(shown.session, shown.cue) === "away";
      if (isAway) {
        waiting.settle(shown.session, shown.cue);
        line.send({ kind: "away", ...shown, away: false });
      } else handIn("none");
      answer = "none";
      remark = "";
      undoUntil = 0;
      draw();
    },

    kept({ session: of, marks }: Extract<ToSeat, { readonly kind: "kept" }>): void {
      for (const { cue, value, late } of marks) {
        const still = waiting.valueOf(of, cue);
        const isAway = still === "away" && value === "none";
        if (still !== null && still !== value && !isAway) continue;
        waiting.settle(of, cue);
        if (!isShown(of, cue)) continue;
        if (answer === "away" && value === "none") continue;
        answer = isAway ? "away" : value === "none" ? "none" : late ? "late" : "recorded";
      }
      draw();
    },

    unkept({ session: of, cue, why }: Extract<ToSeat, { readonly kind: "unkept" }>): void {
      waiting.settle(of, cue);
      remark = say(why === "too-late" ? "seatPage.tooLate" : "seatPage.noCue");
      if (isShown(of, cue)) shown = null;
      undoUntil = 0;
      draw();
    },

    sayAgain(): void {
      // A few with each beat: who says too much at once is hung up on.
      for (const each of waiting.all().slice(0, mostAtOnce)) handOver(each);
    },
  };
}

const messageOf = ({ session, cue, value }: WaitingMark): Parameters<SeatSocket["send"]>[0] =>
  value === "away"
    ? { kind: "away", session, cue, away: true }
    : { kind: "mark", session, cue, value };
