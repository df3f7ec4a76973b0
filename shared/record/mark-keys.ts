import type { MarkValue } from "../session/event.ts";

/**
 * What may be typed into one box of a card, in lower case. The signs are the same everywhere; letters
 * and words cover English and Spanish. Neither x nor o is here: on some cards a cross is a yes, on
 * others a no, and a wrong guess would turn a child's record round.
 */
const keys: ReadonlyMap<string, MarkValue> = new Map<string, MarkValue>([
  ...["+", "1", "y", "s", "yes", "si", "sí", "✓", "on"].map((key) => [key, "on"] as const),
  ...["-", "−", "–", "0", "n", "no", "✗", "off"].map((key) => [key, "off"] as const),
  ...["", ".", "_"].map((key) => [key, "none"] as const),
]);

/**
 * The mark that one key or one pasted cell stands for, or null when it stands for none.
 *
 * `+ 1 y s ✓ yes sí on` are on task, `- 0 n ✗ no off` are off task, nothing or `. _` is nothing
 * recorded. Upper and lower case are alike; spaces around a word are ignored.
 */
export function markFor(text: string): MarkValue | null {
  return keys.get(text.normalize("NFC").toLowerCase().trim()) ?? null;
}
