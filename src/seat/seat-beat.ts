import { aliveEveryMs } from "../../shared/seats/limits.ts";
import type { classClock } from "./class-clock.ts";
import type { SeatSocket } from "./seat-line.ts";

/** How often the clock is asked at first, in ms; then with each beat. */
const firstClockMs = 400;
const firstClocks = 5;

interface SeatBeatOptions {
  readonly line: Pick<SeatSocket, "send" | "check" | "retry">;
  readonly clock: Pick<ReturnType<typeof classClock>, "forget">;
  /** Answers that wait are said again with each beat. */
  readonly sayAgain: () => void;
  /** The page is in front again. */
  readonly wake: () => void;
}

/** Says regularly that the seat's page is in front, and asks for the class's time. */
export function seatBeat({ line, clock, sayAgain, wake }: SeatBeatOptions) {
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
    sayAgain();
  }, aliveEveryMs);
  const woken = () => {
    if (document.hidden) return;
    clock.forget();
    clocksAsked = 0;
    wake();
    line.retry();
    line.send({ kind: "alive" });
    askClock();
    sayAgain();
  };
  document.addEventListener("visibilitychange", woken);

  return {
    /** The line is new: the clock is asked often again. */
    askAnew(): void {
      clocksAsked = 0;
      askClock();
    },
    stop(): void {
      clearTimeout(clockTimer);
      clearInterval(beat);
      document.removeEventListener("visibilitychange", woken);
    },
  };
}
