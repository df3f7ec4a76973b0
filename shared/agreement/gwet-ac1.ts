import { type NotComputable, notComputable } from "../statistics/computed.ts";

export interface GwetAc1 {
  readonly kind: "computed";
  /** Chance-corrected agreement that stays level when nearly all cases are of one kind; at most 1. */
  readonly value: number;
  /** Chance agreement in its sense: 2 q (1 - q) for two kinds, q being the mean share of one. */
  readonly expected: number;
  readonly standardError: number;
}

/**
 * Gwet's AC1 of a square table of counts: `counts[i][j]` cases that the first record put in category i and
 * the second in j. Beside kappa, because kappa falls to 0 where nearly all cases are of one kind.
 *
 * Source: Gwet KL (2008) Br J Math Stat Psychol 61:29-48, equations for two records, all subjects counted.
 * Example: gwetAc1([[118, 5], [2, 0]]) // value 0.941, where kappa is -0.02
 *
 * @throws RangeError unless the table is square with two categories or more and holds counts.
 */
export function gwetAc1(
  counts: readonly (readonly number[])[],
): GwetAc1 | NotComputable<"no-pairs"> {
  const size = counts.length;
  const isTable =
    size >= 2 &&
    counts.every((row) => row.length === size) &&
    counts.flat().every((count) => Number.isFinite(count) && count >= 0);
  if (!isTable)
    throw new RangeError(
      `counts must be a square table of numbers from 0, 2 by 2 or more; got ${JSON.stringify(counts)}.`,
    );
  const total = sum(counts.flat());
  if (total === 0) return notComputable("no-pairs");

  const share = counts.map((row) => row.map((count) => count / total));
  const kinds = share.map((row, i) => (sum(row) + sum(share.map((other) => other[i] ?? 0))) / 2);
  const observed = sum(share.map((row, i) => row[i] ?? 0));
  const expected = sum(kinds.map((kind) => kind * (1 - kind))) / (size - 1);
  const value = (observed - expected) / (1 - expected);

  const miss = 2 * (1 - value);
  const squares = share.flatMap((row, i) =>
    row.map((cell, j) => {
      const chance = (1 - ((kinds[i] ?? 0) + (kinds[j] ?? 0)) / 2) / (size - 1);
      return cell * ((i === j ? 1 : 0) - miss * chance) ** 2;
    }),
  );
  const spread = sum(squares) - (observed - miss * expected) ** 2;
  const standardError = Math.sqrt(Math.max(0, spread) / total) / (1 - expected);
  return { kind: "computed", value, expected, standardError };
}

const sum = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0);
