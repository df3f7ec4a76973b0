import type { LeftOutSession } from "../../../shared/record/group-counts.ts";
import type { Store } from "../../store/store.ts";

/**
 * The days on which seatwork was left out of every number, each with whether it keeps what it paid. A trial is
 * worth nothing; what is left out for another reason keeps what it paid, as the session itself does.
 */
export function leftOutDays(
  { outlines }: Pick<Store, "outlines">,
  leftOut: readonly LeftOutSession[],
): ReadonlyMap<string, { readonly keeps: boolean }> {
  const seatwork = leftOut.filter(({ kind }) => kind === "seatwork");
  const days = Map.groupBy(seatwork, ({ day }) => day);
  return new Map(
    [...days].map(([day, sessions]) => [
      day,
      { keeps: sessions.some(({ id }) => !outlines.of(id).isTrial) },
    ]),
  );
}
