import type { KeyboardEvent } from "react";

/** One box of a sheet: a row and, from 1 as on paper, its box. */
export interface Place {
  row: number;
  /** From 1, as on the card. */
  box: number;
}

/**
 * Where a moving key leads, or null when the key does not move (or leaves the sheet). The place past the
 * last box, where a card stands that is full, is left to the side or for a box.
 */
export function placeAfter(
  event: KeyboardEvent,
  { row, box }: Place,
  rowCount: number,
  boxCount: number,
): Place | null {
  const stay = { row, box };
  switch (event.key) {
    case "ArrowLeft":
      return box > 1 ? { row, box: box - 1 } : stay;
    case "ArrowRight":
      return box < boxCount ? { row, box: box + 1 } : stay;
    case "ArrowUp":
      return row > 0 ? { row: row - 1, box: Math.min(box, boxCount) } : stay;
    case "ArrowDown":
      return row < rowCount - 1 ? { row: row + 1, box: Math.min(box, boxCount) } : stay;
    case "Home":
      return { row, box: 1 };
    case "End":
      return { row, box: boxCount };
    case "Enter":
      return row < rowCount - 1 ? { row: row + 1, box: 1 } : stay;
    case "Tab": {
      if (event.shiftKey) {
        if (box > 1) return { row, box: box - 1 };
        return row > 0 ? { row: row - 1, box: boxCount } : null;
      }
      if (box < boxCount) return { row, box: box + 1 };
      return row < rowCount - 1 ? { row: row + 1, box: 1 } : null;
    }
    default:
      return null;
  }
}
