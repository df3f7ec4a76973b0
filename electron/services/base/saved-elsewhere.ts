import { isDeepStrictEqual } from "node:util";
import { Refusal } from "./refusal.ts";

/**
 * Refuses to save over what another window has saved since.
 *
 * @param before what the page went on from
 * @param kept what is kept now
 * @throws Refusal
 */
export function refuseIfSavedElsewhere(before: unknown, kept: unknown): void {
  if (isDeepStrictEqual(before, kept)) return;
  throw new Refusal(
    "saved-elsewhere",
    "Another window has saved this since. Look at what is kept now, then save again.",
  );
}
