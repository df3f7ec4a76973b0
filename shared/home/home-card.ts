import { z } from "zod";

/** What a cell of the card can say: 0 is the least, 4 the best. A yes is 4 and a no is 0. */
export const ratings = [0, 1, 2, 3, 4] as const;
export type Rating = (typeof ratings)[number];

/**
 * How a version of a card asks and pays. Ratings are kept from 0 to 4 whatever the paper shows, and the
 * version keeps its own scale, so that a changed scale never reads history anew.
 */
export const homeCardScaleSchema = z
  .strictObject({
    kind: z.enum(["scale", "yes-no"]),
    /** Which end of a printed 1 to 5 is good. */
    goodEnd: z.enum(["five", "one"]),
    /** Home points of the ratings 0 to 4; only the two lowest may take points. */
    weights: z.array(z.int().min(-20).max(100)).length(ratings.length),
  })
  .refine(
    ({ weights }) => weights.slice(2).every((weight) => weight >= 0),
    "only the two lowest ratings may take points",
  );
export type HomeCardScale = z.infer<typeof homeCardScaleSchema>;

/** The usual weights, without any that take points; the project's own choice, no source. */
export const usualWeights = [0, 5, 10, 15, 20] as const;

/**
 * The home points of a day: what the rated cells give, less what they take, of which at most half counts.
 * Nothing rated gives no points and takes none: a lost card costs nobody anything.
 *
 * Example: homePoints([4, 4, 4, 1], [0, -20, 10, 15, 20]) // 40
 *
 * @param cells one entry a cell; null for one that nobody rated
 * @param weights home points of the ratings 0 to 4
 */
export function homePoints(cells: readonly (Rating | null)[], weights: readonly number[]): number {
  let gives = 0;
  let takes = 0;
  for (const rating of cells) {
    if (rating === null) continue;
    const weight = weights[rating] ?? 0;
    if (weight > 0) gives += weight;
    else takes -= weight;
  }
  return gives - Math.min(takes, Math.floor(gives / 2));
}

/** How a day's cells were rated, as a share of the best possible; cells nobody rated are left out. */
export interface HomeCardShare {
  /** From 0 to 1; null when nothing was rated. */
  readonly share: number | null;
  readonly rated: number;
  readonly cells: number;
}

/**
 * The rated part of a card.
 *
 * Example: homeCardShare([4, null, 2]) // { share: 0.75, rated: 2, cells: 3 }
 */
export function homeCardShare(cells: readonly (Rating | null)[]): HomeCardShare {
  const rated = cells.filter((rating) => rating !== null);
  const sum = rated.reduce<number>((total, rating) => total + rating, 0);
  return {
    share: rated.length === 0 ? null : sum / (4 * rated.length),
    rated: rated.length,
    cells: cells.length,
  };
}

/**
 * The figure that the paper shows for a stored rating, and back: 1 to 5, either end being the good one.
 *
 * Example: printedRating(4, "one") // 1
 */
export const printedRating = (rating: Rating, goodEnd: HomeCardScale["goodEnd"]): number =>
  goodEnd === "five" ? rating + 1 : 5 - rating;

/**
 * The stored rating of a figure on paper, null where the scale has no such figure.
 *
 * Example: ratingPrinted(1, "one") // 4
 */
export function ratingPrinted(figure: number, goodEnd: HomeCardScale["goodEnd"]): Rating | null {
  return ratings.find((rating) => printedRating(rating, goodEnd) === figure) ?? null;
}
