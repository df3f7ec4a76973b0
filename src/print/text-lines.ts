import { pointMm } from "./paper.ts";

/**
 * Width of a letter as a share of the type size: a generous mean for the app's typeface, so that a text
 * takes no more lines than told. Measured end to end: no card overflows.
 */
const letterWidth = 0.56;

/** How many lines a text takes when it is wrapped between words; 0 for no text. */
export function linesOf(text: string, widthMm: number, sizePt: number): number {
  const words = text.split(/\s+/).filter((word) => word !== "");
  if (words.length === 0) return 0;
  const letters = Math.max(1, Math.floor(widthMm / (letterWidth * sizePt * pointMm)));
  let lines = 1;
  let used = 0;
  for (const word of words) {
    const length = [...word].length;
    const joined = used === 0 ? length : used + 1 + length;
    if (joined <= letters) {
      used = joined;
      continue;
    }
    if (used > 0) lines += 1;
    // A word longer than a line is broken.
    lines += Math.ceil(length / letters) - 1;
    used = length % letters || letters;
  }
  return lines;
}
