import type { HomeCardDay } from "./kept-card.ts";

/**
 * A card that two windows typed on: what was changed here stands, and beside it what is kept since.
 *
 * @param began the card as both began from it
 * @param mine as it was typed here
 * @param kept as it is kept now; of the same version
 *
 * Example: mergedDay({ cardId: "a", day: "2026-03-02", ratings: [null, null], homework: "", wentWell: "", tomorrow: "" }, { cardId: "a", day: "2026-03-02", ratings: [4, null], homework: "", wentWell: "", tomorrow: "" }, { cardId: "a", day: "2026-03-02", ratings: [null, 2], homework: "", wentWell: "", tomorrow: "" }).ratings // [4, 2]
 */
export function mergedDay(began: HomeCardDay, mine: HomeCardDay, kept: HomeCardDay): HomeCardDay {
  // What is kept has no space at its end; the hand that is still writing needs it.
  const text = (name: "homework" | "wentWell" | "tomorrow") =>
    mine[name] === began[name] && mine[name].trim() !== kept[name] ? kept[name] : mine[name];
  return {
    ...mine,
    ratings: mine.ratings.map((each, at) =>
      each === began.ratings[at] ? (kept.ratings[at] ?? null) : each,
    ),
    homework: text("homework"),
    wentWell: text("wentWell"),
    tomorrow: text("tomorrow"),
  };
}
