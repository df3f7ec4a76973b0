/** A point of the plane that is searched. */
export type Place = readonly [number, number];

/**
 * The place near `start` where a smooth function of two numbers is least, by the simplex of Nelder and Mead.
 *
 * Source: Nelder JA, Mead R (1965), The Computer Journal 7:308-313.
 *
 * @param step size of the first triangle
 *
 * Example: leastNear(([x, y]) => (x - 1) ** 2 + y * y, [0, 0], 0.5) // about [1, 0]
 */
export function leastNear(of: (place: Place) => number, start: Place, step: number): Place {
  const vertex = (place: Place) => ({ place, value: of(place) });
  let corners = [start, [start[0] + step, start[1]], [start[0], start[1] + step]].map((place) =>
    vertex(place as Place),
  );
  for (let round = 0; round < 2_000; round += 1) {
    corners = corners.sort((a, b) => a.value - b.value);
    const [best, middle, worst] = corners as [Corner, Corner, Corner]; // always three
    const spread = Math.max(
      ...[0, 1].map((axis) => Math.abs((worst.place[axis] ?? 0) - (best.place[axis] ?? 0))),
    );
    if (spread < 1e-10) break;
    const along = (share: number): Corner =>
      vertex([
        mix(best.place[0], middle.place[0], worst.place[0], share),
        mix(best.place[1], middle.place[1], worst.place[1], share),
      ]);
    const reflected = along(-1);
    let next = reflected;
    if (reflected.value < best.value) {
      const further = along(-2);
      if (further.value < reflected.value) next = further;
    } else if (reflected.value >= middle.value) {
      next = along(reflected.value < worst.value ? -0.5 : 0.5);
      if (next.value >= Math.min(worst.value, reflected.value)) {
        corners = corners.map(({ place }) =>
          vertex([(place[0] + best.place[0]) / 2, (place[1] + best.place[1]) / 2]),
        );
        continue;
      }
    }
    corners = [best, middle, next];
  }
  return corners.reduce((least, each) => (each.value < least.value ? each : least)).place;
}

interface Corner {
  readonly place: Place;
  readonly value: number;
}

/** From the middle of the two better corners toward the worst (share 1), or away from it (below 0). */
const mix = (best: number, middle: number, worst: number, share: number): number => {
  const centre = (best + middle) / 2;
  return centre + share * (worst - centre);
};
