import type { FromSeat, ToSeat } from "../../shared/seats/message.ts";
import { pressId } from "./press-id.ts";
import type { SeatSocket } from "./seat-line.ts";
import { say } from "./words.ts";

/** A press that was not confirmed is said again within this time; later nobody would expect it, in ms. */
const sayAgainWithinMs = 30_000;

interface AskedPress {
  readonly where: string;
  readonly word: string;
  readonly message: FromSeat;
  readonly at: number;
}

interface Giving {
  readonly kind: "give";
  readonly place: number;
  readonly amount: number;
}
interface Taking {
  readonly kind: "take";
  readonly place: number;
}

/**
 * Presses of the adult's phone that the class's computer has still to answer.
 *
 * @param tell says at which place what became of a press
 */
export function askedPresses(
  line: Pick<SeatSocket, "send">,
  tell: (where: string, text: string) => void,
) {
  /** What is under way, by its press: where, and what is said once it is done. */
  const asked = new Map<string, AskedPress>();
  let wasLost = false;

  return {
    /** Sends a press; `word` is said once it is done. */
    ask(where: string, word: string, what: Giving | Taking): void {
      const press = pressId();
      const message = { ...what, press };
      const sent = line.send(message);
      tell(where, say(sent ? "pocketPage.sending" : "pocketPage.notSent"));
      if (sent) asked.set(press, { where, word, message, at: performance.now() });
    },

    answered(message: Extract<ToSeat, { readonly kind: "done" | "refused" }>): void {
      const of = asked.get(message.press);
      asked.delete(message.press);
      if (of === undefined) return;
      tell(
        of.where,
        message.kind === "done" ? of.word : say(`pocketPage.refused.${message.why}` as const),
      );
    },

    lost(): void {
      wasLost = true;
    },

    /** What was sent and not confirmed may have arrived or not; the same press said twice is one. */
    sayAgain(): void {
      if (!wasLost) return;
      wasLost = false;
      asked.forEach(({ where, message, at }, press) => {
        if (performance.now() - at < sayAgainWithinMs && line.send(message)) return;
        asked.delete(press);
        tell(where, say("pocketPage.unsure"));
      });
    },
  };
}
