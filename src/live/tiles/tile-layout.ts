/** The room that tiles have, in CSS pixels; `rem` is the size of the page's letters. */
export interface TileRoom {
  readonly width: number;
  readonly height: number;
  readonly rem: number;
}

export interface TileLayout {
  readonly columns: number;
  readonly rows: number;
  /** The height that all rows need at least; more than the room's means that the page scrolls. */
  readonly leastHeight: number;
}

/** Between two tiles, in px; tiles.css says the same. */
export const tileGap = 4;

/** Edges and padding of a tile on both sides, in px; tiles.css says the same. */
const frame = 12;

/**
 * The smallest tile, in rem: two answers of 64 px with 8 px between them; above them the name, below them
 * "I was away", each on a line, 8 px from an answer. tiles.css says the same.
 */
const leastRem = { width: 4 + 0.5 + 4, height: 1.5 + 0.125 + 4 + 0.5 + 1.625 };

/** A tile is best a little wider than high: two answers lie side by side in it. Common practice, no source. */
const bestShape = 1.15;

/**
 * How many tiles stand side by side, so that they are as large as the window allows and all of them are in
 * sight. The rows of the room are kept where its tiles fit in the window; where they do not, the order
 * stays and the rows go.
 *
 * @param count number of tiles, at least 1
 * @param seatsInRow seats side by side in the room, or null when it has no rows
 *
 * Example: tileLayout(8, null, { width: 1900, height: 980, rem: 18 }) // { columns: 4, rows: 2, ... }
 */
export function tileLayout(count: number, seatsInRow: number | null, room: TileRoom): TileLayout {
  const least = {
    width: leastRem.width * room.rem + frame,
    height: leastRem.height * room.rem + frame,
  };
  const ofColumns = (columns: number) => {
    const rows = Math.max(1, Math.ceil(count / columns));
    const width = (room.width - (columns - 1) * tileGap) / columns;
    const height = (room.height - (rows - 1) * tileGap) / rows;
    return {
      layout: { columns, rows, leastHeight: rows * least.height + (rows - 1) * tileGap },
      fits: width >= least.width && height >= least.height,
      size: Math.min(width / bestShape, height),
    };
  };
  if (seatsInRow !== null) {
    const ofRoom = ofColumns(seatsInRow);
    if (ofRoom.fits) return ofRoom.layout;
  }
  const all = Array.from({ length: Math.max(1, count) }, (_, index) => ofColumns(index + 1));
  const [first, ...others] = all.filter(({ fits }) => fits);
  if (first !== undefined) {
    return others.reduce((best, each) => (each.size > best.size ? each : best), first).layout;
  }
  // Not all are in sight at once: as many side by side as a finger can hit.
  const columns = Math.floor((room.width + tileGap) / (least.width + tileGap));
  return ofColumns(Math.min(Math.max(1, columns), Math.max(1, count))).layout;
}
