import { describe, expect, it } from "vitest";
import { tileGap, tileLayout } from "../../../../../src/live/tiles/tile-layout.ts";

// What a tile needs, from the rule of the room: answers of at least 64 px with 8 px between them, a line
// for the name, a line of at least 24 px for "I was away", 8 px below the answers.
const leastWidth = 64 + 8 + 64;
const leastHeight = 64 + 8 + 24 + 20;

const laptop = { width: 1358, height: 712, rem: 16 };
const projector = { width: 1912, height: 970, rem: 18 };

function sizeOf(count: number, room: typeof laptop, seats: number | null = null) {
  const { columns, rows, leastHeight: needed } = tileLayout(count, seats, room);
  return {
    columns,
    rows,
    fits: needed <= room.height,
    width: (room.width - (columns - 1) * tileGap) / columns,
    height: (Math.max(room.height, needed) - (rows - 1) * tileGap) / rows,
  };
}

describe("The layout of the tiles", () => {
  it("shows one to forty students on a laptop and on a projector without scrolling", () => {
    for (const room of [laptop, projector]) {
      for (let count = 1; count <= 40; count += 1) {
        const { columns, rows, fits, width, height } = sizeOf(count, room);
        expect(fits, `${count} students`).toBe(true);
        expect(columns * rows).toBeGreaterThanOrEqual(count);
        expect(width).toBeGreaterThanOrEqual(leastWidth);
        expect(height).toBeGreaterThanOrEqual(leastHeight);
      }
    }
  });

  it("fills a projector with eight tiles", () => {
    const { width, height } = sizeOf(8, projector);
    expect((8 * width * height) / (projector.width * projector.height)).toBeGreaterThan(0.97);
  });

  it("never gives fewer students smaller tiles", () => {
    for (const room of [laptop, projector]) {
      let before = Number.POSITIVE_INFINITY;
      for (let count = 1; count <= 40; count += 1) {
        const { width, height } = sizeOf(count, room);
        const size = Math.min(width / 1.15, height);
        expect(size).toBeLessThanOrEqual(before + 1e-9);
        before = size;
      }
    }
  });

  it("keeps the rows of the room while its tiles fit, and the order alone when they do not", () => {
    expect(tileLayout(4, 2, laptop)).toMatchObject({ columns: 2, rows: 2 });
    expect(tileLayout(24, 6, laptop)).toMatchObject({ columns: 6, rows: 4 });
    // Ten side by side leave 132 px for two answers of 64 with 8 between them, and edges.
    const { columns, fits } = sizeOf(40, laptop, 10);
    expect(columns).toBe(8);
    expect(fits).toBe(true);
  });

  it("scrolls downwards, never sideways, where the window is too small", () => {
    const phone = { width: 304, height: 400, rem: 16 };
    const { columns, fits, width, height } = sizeOf(12, phone);
    expect(columns).toBe(2);
    expect(fits).toBe(false);
    expect(width).toBeGreaterThanOrEqual(leastWidth);
    expect(height).toBeGreaterThanOrEqual(leastHeight);
  });

  it("has a place where there is no room at all, and where nobody is", () => {
    expect(tileLayout(3, null, { width: 0, height: 0, rem: 16 })).toMatchObject({ columns: 1 });
    expect(tileLayout(0, null, laptop)).toMatchObject({ columns: 1, rows: 1 });
  });
});
