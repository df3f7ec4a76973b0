import { homeCardShare, homePoints, type Rating } from "./home-card.ts";
import { type HomeCard, type HomeCardDay, ratingsOfGoal } from "./kept-card.ts";

/** One day's card, computed. */
export interface CardOfDay {
  readonly day: string;
  /** Home points; null when nothing was rated: that is no card, and nothing is lost. */
  readonly points: number | null;
  /** Of the best possible, 0 to 1; null when nothing was rated. */
  readonly share: number | null;
  readonly rated: number;
  readonly cells: number;
  readonly homework: string;
  readonly wentWell: string;
  readonly tomorrow: string;
}

/** How often a goal was rated with one of the two best figures, or with yes. */
export interface GoalOfWeek {
  readonly goal: string;
  readonly well: number;
  readonly rated: number;
}

export interface HomeWeek {
  readonly days: readonly CardOfDay[];
  readonly goals: readonly GoalOfWeek[];
  /** Home points of all days. */
  readonly points: number;
  /** Days on which something was rated. */
  readonly cards: number;
}

/** From here on, of 0 to 4, a rating counts as going well; common practice, no source. */
const goesWell = 3;

/** A card as it was typed in, with the version that it was printed by. */
export interface TypedCard {
  readonly card: HomeCard;
  readonly typed: HomeCardDay;
}

/**
 * A card's sums: its home points, and how much of the best possible was rated.
 *
 * Example: cardOfDay({ card: { goals: ["a"], periods: ["1"], scale: { kind: "yes-no", goodEnd: "five", weights: [0, 5, 10, 15, 20] }, homework: false, selfRecord: false }, typed: { cardId: "0190a000-0000-7000-8000-000000000001", day: "2026-03-02", ratings: [4], homework: "", wentWell: "", tomorrow: "" } }).points // 20
 */
export function cardOfDay({ card, typed }: TypedCard): CardOfDay {
  const { day, ratings, homework, wentWell, tomorrow } = typed;
  const { share, rated, cells } = homeCardShare(ratings);
  return {
    day,
    points: rated === 0 ? null : homePoints(ratings, card.scale.weights),
    share,
    rated,
    cells,
    homework,
    wentWell,
    tomorrow,
  };
}

/**
 * A week of cards for the family. Goals of a card that was changed in between stand by their own words.
 *
 * Example: homeWeek([]).cards // 0
 *
 * @param typed oldest first
 */
export function homeWeek(typed: readonly TypedCard[]): HomeWeek {
  const days = typed.map(cardOfDay);
  const goals = new Map<string, { well: number; rated: number }>();
  for (const { card, typed: day } of typed) {
    card.goals.forEach((goal, at) => {
      const sum = goals.get(goal) ?? { well: 0, rated: 0 };
      const cells = ratingsOfGoal(day.ratings, card, at).filter(isRated);
      sum.rated += cells.length;
      sum.well += cells.filter((rating) => rating >= goesWell).length;
      goals.set(goal, sum);
    });
  }
  return {
    days,
    goals: [...goals].map(([goal, sum]) => ({ goal, ...sum })),
    points: days.reduce((total, { points }) => total + (points ?? 0), 0),
    cards: days.filter(({ points }) => points !== null).length,
  };
}

const isRated = (rating: Rating | null): rating is Rating => rating !== null;
