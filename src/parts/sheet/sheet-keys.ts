import type { KeyboardEvent } from "react";

/** One box of a sheet: a row and, from 1 as on paper, its box. */
export interface Place {
  row: number;
  /** From 1, as on the card. */
  box: number;
}

/**
 * Where a moving key leads inside the sheet, or null when the key does not move. Tab is none of them: it
 * leaves the sheet.
 *
 * @param lastPlace the last place of a row that a step to the side reaches; one past the boxes where a row
 *   has a place past its last one
 * @param boxCount number of boxes in a row; End and a change of row lead to no place past them
 */
export function placeAfter(
  event: Pick<KeyboardEvent, "key">,
  { row, box }: Place,
  rowCount: number,
  lastPlace: number,
  boxCount: number = lastPlace,
): Place | null {
  const stay = { row, box };
  switch (event.key) {
    case "ArrowLeft":
      return box > 1 ? { row, box: box - 1 } : stay;
    case "ArrowRight":
      return box < lastPlace ? { row, box: box + 1 } : stay;
    case "ArrowUp":
      return row > 0 ? { row: row - 1, box: Math.min(box, boxCount) } : stay;
    case "ArrowDown":
      return row < rowCount - 1 ? { row: row + 1, box: Math.min(box, boxCount) } : stay;
    case "Home":
      return { row, box: 1 };
    case "End":
      return { row, box: boxCount };
    default:
      return null;
  }
}
