import { type NotComputable, notComputable } from "../../statistics/computed.ts";
import { mean } from "../../statistics/moments.ts";

/** A session's place in the order, from 1, and its value; a session without marks has none. */
export interface PlacedPoint {
  readonly place: number;
  readonly value: number;
}

export interface AlternationTest {
  readonly kind: "computed";
  /** Mean under A less mean under B, in the points' unit. */
  readonly difference: number;
  /** Share of all orders that could be drawn that give as great a difference in either direction. */
  readonly probability: number;
  /** Share that give at least this difference upward, for whoever said before that A would be higher. */
  readonly oneSidedProbability: number;
  readonly ways: number;
  /** Sessions with a value under A and under B. */
  readonly points: { readonly A: number; readonly B: number };
}

export type AlternationReason =
  /** The order is not one of those it could be drawn from. */
  | "order-not-permitted"
  /** In some order one condition would be without a value. */
  | "order-leaves-condition-empty";

/** So many sessions in a row may be under one condition. */
const mostInARow = 2;

/**
 * All orders of two conditions that can be drawn: as many sessions of each, never more than two in a row.
 * Their number is that of pairs of compositions of n/2 into ones and twos whose lengths differ by one at most.
 *
 * Source: restricted alternation, Onghena P, Edgington ES (1994), Behaviour Research and Therapy 32:783-786
 * (from memory); the counts are held to the formula and to a search of all words.
 *
 * @param sessions even, up to 24
 *
 * Example: alternationOrders(4) // ["AABB", "ABAB", "ABBA", "BAAB", "BABA", "BBAA"]
 */
export function alternationOrders(sessions: number): string[] {
  const half = sessions / 2;
  const orders: string[] = [];
  const extend = (order: string, ofA: number, ofB: number): void => {
    if (order.length === sessions) orders.push(order);
    else {
      if (ofA < half && !endsWithRun(order, "A")) extend(`${order}A`, ofA + 1, ofB);
      if (ofB < half && !endsWithRun(order, "B")) extend(`${order}B`, ofA, ofB + 1);
    }
  };
  extend("", 0, 0);
  return orders;
}

const endsWithRun = (order: string, letter: string): boolean =>
  order.endsWith(letter.repeat(mostInARow));

/**
 * Exact randomization test of two conditions that took turns in a drawn order. Under "it made no difference"
 * every order that could be drawn was as likely, whatever trend, spread or alike neighbours the record has.
 * Two-sided, because nobody need say before which condition would be higher.
 *
 * Source: see `alternationOrders`. Example: alternationTest("ABBB", []) // not-computable, "order-not-permitted"
 *
 * @param order one letter a session, as it was drawn
 * @param points at most one for each place; a place without one is passed over in every order
 */
export function alternationTest(
  order: string,
  points: readonly PlacedPoint[],
): AlternationTest | NotComputable<AlternationReason> {
  const orders = alternationOrders(order.length);
  if (!orders.includes(order)) return notComputable("order-not-permitted");
  const differences = orders.map((each) => differenceIn(each, points));
  const seen = differences[orders.indexOf(order)] ?? null;
  if (seen === null || differences.includes(null)) {
    return notComputable("order-leaves-condition-empty");
  }
  // Sums in another order may differ in the last digit; a tie must stay a tie.
  const slack = 1e-9 * Math.max(1, Math.abs(seen));
  const share = (reaches: (difference: number) => boolean) =>
    differences.filter((difference) => difference !== null && reaches(difference)).length /
    orders.length;
  const ofA = points.filter(({ place }) => order[place - 1] === "A").length;
  return {
    kind: "computed",
    difference: seen,
    probability: share((difference) => Math.abs(difference) >= Math.abs(seen) - slack),
    oneSidedProbability: share((difference) => difference >= seen - slack),
    ways: orders.length,
    points: { A: ofA, B: points.length - ofA },
  };
}

function differenceIn(order: string, points: readonly PlacedPoint[]): number | null {
  const under = (letter: string) =>
    points.filter(({ place }) => order[place - 1] === letter).map(({ value }) => value);
  const [ofA, ofB] = [under("A"), under("B")];
  return ofA.length === 0 || ofB.length === 0 ? null : mean(ofA) - mean(ofB);
}
