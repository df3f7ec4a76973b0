import { aliveEveryMs } from "../../shared/seats/limits.ts";
import type { SeatStanding, ToSeat } from "../../shared/seats/message.ts";
import { carriersNow, carryCue } from "./carriers.ts";
import { classClock } from "./class-clock.ts";
import { type SeatView, seatFace } from "./seat-face.ts";
import type { SeatSocket } from "./seat-line.ts";
import { stayAwake } from "./stay-awake.ts";
import type { WaitingMark, waitingMarks } from "./waiting-marks.ts";
import { say } from "./words.ts";

/** A cue that could not be shown this soon after its moment is not shown any more, in ms. */
const showWithinMs = 3_000;
/** How long an answer can be taken back, in ms. */
const undoMs = 10_000;
/** How often the clock is asked at first, in ms; then with each beat. */
const firstClockMs = 400;
const firstClocks = 5;
/** An answer that is not confirmed this soon is said to wait, in ms. */
const confirmWithinMs = 2_500;
/** Answers that waited are said again so many at a time. */
const mostAtOnce = 8;

type Heard<Kind extends ToSeat["kind"]> = Extract<ToSeat, { readonly kind: Kind }>;
interface Shown {
  readonly session: string;
  readonly cue: number;
}

/** The cue that is asked about outlives a reload of the tab. */
const shownKey = "pebblechime-shown";

function keepShown(shown: Shown | null): void {
  try {
    if (shown === null) sessionStorage.removeItem(shownKey);
    else sessionStorage.setItem(shownKey, JSON.stringify([shown.session, shown.cue]));
  } catch {
    // Without storage a reload takes the question away, and its cue is answered on the card.
  }
}

function keptShown(): Shown | null {
  try {
    const [session, cue]: unknown[] = JSON.parse(sessionStorage.getItem(shownKey) || "[]");
    return typeof session === "string" && typeof cue === "number" ? { session, cue } : null;
  } catch {
    return null;
  }
}

/** One seat, from joining on: shows its cues and hands in its answers. */
export function seatPage(
  line: SeatSocket,
  waiting: ReturnType<typeof waitingMarks>,
  first: Heard<"seat">,
) {
  let seat = first;
  let standing: SeatStanding = "idle";
  let session: string | null = null;
  let points: number | null = null;
  let isOffline = false;
  let shown: Shown | null = null;
  /** What this tab showed before it was loaded again. */
  let before: Shown | null = keptShown();
  let answer: SeatView["answer"] = "none";
  let undoUntil = 0;
  let remark = "";
  let due = { session: "", cue: 0, timer: 0 };
  const clock = classClock();
  const awake = stayAwake();
  const face = seatFace({ mark, away, undo });

  function draw(): void {
    face.draw({
      number: seat.number,
      look: seat.look,
      standing,
      isOffline,
      cue: shown === null ? null : shown.cue,
      answer,
      canUndo: performance.now() < undoUntil,
      remark,
      points,
    });
  }

  function openUndo(): void {
    undoUntil = performance.now() + undoMs;
    window.setTimeout(draw, undoMs + 50);
  }

  function handIn(value: WaitingMark["value"]): void {
    if (shown === null) return;
    const mark = { session: shown.session, cue: shown.cue, value };
    waiting.add(mark);
    if (!handOver(mark)) isOffline = true;
  }

  function handOver({ session: of, cue, value }: WaitingMark): boolean {
    return value === "away"
      ? line.send({ kind: "away", session: of, cue, away: true })
      : line.send({ kind: "mark", session: of, cue, value });
  }

  /** Nothing is called recorded before it is on the class's disk. */
  function awaitAnswer(): void {
    const at = shown;
    window.setTimeout(() => {
      if (shown !== at || answer !== "sent") return;
      answer = "waits";
      draw();
    }, confirmWithinMs);
  }

  function mark(value: "on" | "off"): void {
    if (shown === null || answer !== "none") return;
    remark = "";
    handIn(value);
    answer = isOffline ? "waits" : "sent";
    awaitAnswer();
    openUndo();
    draw();
  }

  function away(): void {
    if (shown === null || answer !== "none") return;
    remark = "";
    handIn("away");
    answer = isOffline ? "waits" : "sent";
    awaitAnswer();
    openUndo();
    draw();
  }

  function undo(): void {
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
  }

  /** Shows a cue, if its moment has not passed and somebody can see it. */
  function showCue(next: Shown, atServer: number): void {
    const now = clock.now();
    if (now === null || now - atServer > showWithinMs || document.hidden) return;
    shown = next;
    keepShown(next);
    answer = "none";
    remark = "";
    undoUntil = 0;
    const by = carryCue();
    draw();
    line.send({ kind: "began", ...next, by, at: now });
  }

  function plan({ session: of, cue, atServer }: Heard<"due">): void {
    clearTimeout(due.timer);
    const now = clock.now();
    if (now === null) {
      // The clock answers within a moment; the cue is some two seconds ahead.
      due = {
        session: of,
        cue,
        timer: window.setTimeout(() => plan({ kind: "due", session: of, cue, atServer }), 200),
      };
      return;
    }
    const timer = window.setTimeout(
      () => showCue({ session: of, cue }, atServer),
      Math.max(0, atServer - now),
    );
    due = { session: of, cue, timer };
  }

  function kept({ session: of, marks }: Heard<"kept">): void {
    for (const { cue, value, late } of marks) {
      const still = waiting.valueOf(of, cue);
      const isAway = still === "away" && value === "none";
      if (still !== null && still !== value && !isAway) continue;
      waiting.settle(of, cue);
      if (shown === null || shown.session !== of || shown.cue !== cue) continue;
      if (answer === "away" && value === "none") continue;
      answer = isAway ? "away" : value === "none" ? "none" : late ? "late" : "recorded";
    }
    draw();
  }

  function unkept({ session: of, cue, why }: Heard<"unkept">): void {
    waiting.settle(of, cue);
    remark = say(why === "too-late" ? "seatPage.tooLate" : "seatPage.noCue");
    if (shown !== null && shown.session === of && shown.cue === cue) shown = null;
    undoUntil = 0;
    draw();
  }

  function state(told: Heard<"state">): void {
    standing = told.is;
    awake.want(standing === "running" || standing === "paused");
    points = told.points === undefined ? null : told.points;
    if (told.session !== session) {
      session = told.session;
      if (shown !== null && shown.session !== session) shown = null;
      remark = "";
    }
    if (standing === "idle" || standing === "untied") shown = null;
    else if (shown === null && before !== null && before.session === session) shown = before;
    before = null;
    draw();
  }

  function sayAgain(): void {
    // A few with each beat: who says too much at once is hung up on.
    for (const each of waiting.all().slice(0, mostAtOnce)) handOver(each);
  }

  let clocksAsked = 0;
  let clockTimer = 0;
  function askClock(): void {
    clearTimeout(clockTimer);
    line.send({ kind: "clock", t: performance.now() });
    clocksAsked += 1;
    if (clocksAsked < firstClocks) clockTimer = window.setTimeout(askClock, firstClockMs);
  }

  const beat = window.setInterval(() => {
    // What is not in front shows no cue: it says nothing, and the class's computer counts it as asleep.
    if (document.hidden) return;
    line.check();
    line.send({ kind: "alive" });
    askClock();
    if (waiting.all().length > 0) sayAgain();
  }, aliveEveryMs);
  const woken = () => {
    if (document.hidden) return;
    clock.forget();
    clocksAsked = 0;
    awake.again();
    line.retry();
    line.send({ kind: "alive" });
    askClock();
    sayAgain();
  };
  document.addEventListener("visibilitychange", woken);

  function greet(): void {
    isOffline = false;
    clocksAsked = 0;
    askClock();
    line.send({ kind: "ready", carriers: carriersNow() });
    sayAgain();
    draw();
  }
  greet();

  return {
    /** The line holds again. */
    again(told: Heard<"seat">): void {
      seat = told;
      greet();
    },
    lost(): void {
      isOffline = true;
      draw();
    },
    stop(): void {
      awake.want(false);
      clearTimeout(due.timer);
      clearTimeout(clockTimer);
      clearInterval(beat);
      document.removeEventListener("visibilitychange", woken);
    },
    heard(message: ToSeat): void {
      if (message.kind === "clock") clock.heard(message.t, message.at);
      else if (message.kind === "due") plan(message);
      else if (message.kind === "kept") kept(message);
      else if (message.kind === "unkept") unkept(message);
      else if (message.kind === "state") state(message);
      else if (
        message.kind === "cancelled" &&
        due.session === message.session &&
        due.cue === message.cue
      ) {
        clearTimeout(due.timer);
      }
    },
  };
}
