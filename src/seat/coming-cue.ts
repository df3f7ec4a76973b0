import type { ToSeat } from "../../shared/seats/message.ts";
import type { classClock } from "./class-clock.ts";
import type { ShownCue } from "./shown-cue.ts";

/** The clock answers within a moment, and the cue is some two seconds ahead: it is looked at again, in ms. */
const clockAgainMs = 200;

/**
 * The seat's next cue, a moment ahead.
 *
 * @param show called at its moment, which it is told in ms of the class's clock
 */
export function comingCue(
  clock: Pick<ReturnType<typeof classClock>, "now">,
  show: (cue: ShownCue, atServer: number) => void,
) {
  let due = { session: "", cue: 0, timer: 0 };

  function plan(message: Extract<ToSeat, { readonly kind: "due" }>): void {
    clearTimeout(due.timer);
    const { session, cue, atServer } = message;
    const now = clock.now();
    const timer =
      now === null
        ? window.setTimeout(() => plan(message), clockAgainMs)
        : window.setTimeout(() => show({ session, cue }, atServer), Math.max(0, atServer - now));
    due = { session, cue, timer };
  }

  return {
    plan,
    cancelled({ session, cue }: ShownCue): void {
      if (due.session === session && due.cue === cue) clearTimeout(due.timer);
    },
    stop(): void {
      clearTimeout(due.timer);
    },
  };
}
