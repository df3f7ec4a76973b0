import type { CardForDay } from "../../../shared/api/home-cards.ts";
import { type Rating, ratingPrinted } from "../../../shared/home/home-card.ts";
import { cellCount, type HomeCard, type HomeCardDay } from "../../../shared/home/kept-card.ts";

/** The keys that say yes and no, by the languages of the papers. */
const yesKeys = ["y", "s"];
const noKeys = ["n"];

/**
 * What a key says in a box of a card: a rating, null for a box left empty, undefined where the card has no
 * such rating. The figures are those on paper.
 *
 * Example: ratingOfKey("5", { kind: "scale", goodEnd: "five", weights: [0, 5, 10, 15, 20] }) // 4
 */
export function ratingOfKey(key: string, scale: HomeCard["scale"]): Rating | null | undefined {
  if (key === " " || key === "-") return null;
  if (scale.kind === "scale") {
    return /^[0-9]$/.test(key)
      ? (ratingPrinted(Number(key), scale.goodEnd) ?? undefined)
      : undefined;
  }
  const letter = key.toLowerCase();
  if (yesKeys.includes(letter)) return 4;
  return noKeys.includes(letter) ? 0 : undefined;
}

/** The card of a day as it is typed: what came back so far, or all its boxes empty. */
export const typedOf = ({ version, typed }: CardForDay, day: string): HomeCardDay =>
  typed ?? {
    cardId: version.id,
    day,
    ratings: Array.from({ length: cellCount(version.card) }, () => null),
    homework: "",
    wentWell: "",
    tomorrow: "",
  };

/** The same card with another rating in one box. */
export const rated = (typed: HomeCardDay, cell: number, rating: Rating | null): HomeCardDay => ({
  ...typed,
  ratings: typed.ratings.map((each, at) => (at === cell ? rating : each)),
});
