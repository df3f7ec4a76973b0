import type { SeenValue } from "../../../shared/session/event.ts";
import { useSingleKeys } from "../../parts/use-single-keys.ts";

export type AnswerKeys = Readonly<Record<SeenValue, string>>;

/**
 * The keys for the students of a check, by their places in it: working, not working, couldn't see. Digits
 * in pairs, and the letters below them in the same order.
 */
export const keysByPlace: readonly AnswerKeys[] = [
  { on: "1", off: "2", unseen: "q" },
  { on: "3", off: "4", unseen: "w" },
  { on: "5", off: "6", unseen: "e" },
  { on: "7", off: "8", unseen: "r" },
];

const values: readonly SeenValue[] = ["on", "off", "unseen"];

interface Answering {
  /** Who has which place; it stays theirs for the whole check, so that no key changes its meaning. */
  readonly places: readonly string[];
  /** Those of them who have not been answered yet. */
  readonly asked: ReadonlySet<string>;
  /** Whether what is shown has stood long enough for a key to be meant for it. */
  readonly isMeant: () => boolean;
  readonly onSay: (studentId: string, value: SeenValue) => void;
  /** Null while there is nothing to skip. */
  readonly onSkip: (() => void) | null;
}

/** Digits by their place, whatever the layout writes there; those of the number pad give points and mean nothing here. */
export function checkKeyOf({ code, key }: Pick<KeyboardEvent, "code" | "key">): string {
  if (code.startsWith("Numpad")) return "";
  return /^Digit[1-8]$/.test(code) ? code.slice(-1) : key.toLowerCase();
}

/** Keys answer for the teacher whose hand is on the keyboard; Escape skips the check that waits. */
export function useCheckKeys({ places, asked, isMeant, onSay, onSkip }: Answering): void {
  useSingleKeys((event) => {
    if (event.key === "Escape") {
      onSkip?.();
      return;
    }
    if (!isMeant()) return;
    const key = checkKeyOf(event);
    places.forEach((studentId, place) => {
      const value = values.find((each) => keysByPlace[place]?.[each] === key);
      if (value !== undefined && asked.has(studentId)) onSay(studentId, value);
    });
  });
}
