import type { CSSProperties } from "react";
import { useSettings } from "../../api/queries.ts";

/** Seats side by side in a group's room, in which its tiles stand too; null for as many as fit. */
export function useSeatsInRow(groupId: string): number | null {
  return useSettings()?.seatsInRow[groupId] ?? null;
}

/** Hands the number of seats in a row to the style sheet, as `--seats`. */
export function seatsStyle(inRow: number | null): CSSProperties {
  const own: Record<string, number> = inRow === null ? {} : { "--seats": inRow };
  return own;
}
