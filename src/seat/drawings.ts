import { drawing } from "./dom.ts";

// The same signs as on the tiles of the shared screen, so that a child knows them from there.

/** A tick in a round stone. */
export const yesSign = () =>
  drawing("sign", "M24 5a19 19 0 1 0 0 38a19 19 0 1 0 0-38z", "M14.5 25l7 7 13-15");
/** A level stroke in an upright leaf. */
export const noSign = () =>
  drawing(
    "sign",
    "M10 6h28a4 4 0 0 1 4 4v28a4 4 0 0 1-4 4H10a4 4 0 0 1-4-4V10a4 4 0 0 1 4-4z",
    "M15 24h18",
  );
/** A door that stands open. */
export const awaySign = () =>
  drawing("sign sign-small", "M12 43V7h18v36M6 43h36", "M30 11l9 5v27", "M25 26v.5");
export const undoSign = () =>
  drawing("sign sign-small", "M17 10L8 19l9 9M9 19h18a11 11 0 0 1 0 22h-8");
/** A pebble laid down. */
export const pebble = (className: string) =>
  drawing(
    className,
    "M8 27c-1-8 6-14 17-14 10 0 16 6 15 13-1 7-8 11-16 11-9 0-15-3-16-10z",
    "M16 23c5-4 12-4 17-1",
  );
