import { type NotComputable, notComputable } from "../statistics/computed.ts";
import type { TwoByTwo } from "./two-by-two.ts";

export interface Kappa {
  readonly kind: "computed";
  /** Chance-corrected agreement, at most 1; 0 is what chance alone would give. */
  readonly value: number;
  /** Share of cases on the diagonal. */
  readonly observed: number;
  /** Share expected on the diagonal if the two records were unrelated. */
  readonly expected: number;
  /**
   * Large-sample standard error, for intervals; null where one record uses a single category throughout,
   * because the formula then gives 0 for a kappa that is not known at all.
   */
  readonly standardError: number | null;
  /** Standard error if the true kappa were 0, for a test against chance; null likewise. */
  readonly standardErrorUnderZero: number | null;
  /** The greatest kappa these margins allow. */
  readonly greatestPossible: number;
  /** Prevalence- and bias-adjusted: chance taken as one in the number of categories. */
  readonly adjusted: number;
}

export type KappaReason =
  | "no-pairs"
  /** Both records used one and the same category throughout, so chance agreement is certain. */
  | "only-one-category-used";

/**
 * Cohen's kappa of a square table of counts: `counts[i][j]` cases that the first record put in category
 * i and the second in j. Any number of categories from two up.
 *
 * Sources: Cohen J (1960) Educ Psychol Meas 20:37-46 (kappa, greatest kappa); Fleiss JL, Cohen J,
 * Everitt BS (1969) Psychol Bull 72:323-327 (both standard errors); Byrt T, Bishop J, Carlin JB (1993)
 * J Clin Epidemiol 46:423-429 (adjusted form, here (k po - 1) / (k - 1) for k categories).
 *
 * @throws RangeError when the table is not square, has fewer than two categories, or holds anything but
 *   counts.
 */
export function cohenKappa(
  counts: readonly (readonly number[])[],
): Kappa | NotComputable<KappaReason> {
  requireSquareCounts(counts);
  const size = counts.length;
  const total = sum(counts.map(sum));
  if (total === 0) return notComputable("no-pairs");

  const share = counts.map((row) => row.map((count) => count / total));
  const rows = share.map(sum);
  const columns = share.map((_, j) => sum(share.map((row) => at(row, j))));
  const diagonal = share.map((row, i) => at(row, i));
  const margins = rows.map((row, i) => ({ row, column: at(columns, i) }));

  const observed = sum(diagonal);
  const expected = sum(margins.map(({ row, column }) => row * column));
  if (rows.some((row, i) => row === 1 && columns[i] === 1) || expected >= 1)
    return notComputable("only-one-category-used");

  const isConstant = counts.some(
    (row, i) => sum(row) === total || sum(counts.map((other) => at(other, i))) === total,
  );
  const room = 1 - expected;
  const value = (observed - expected) / room;
  return {
    kind: "computed",
    value,
    observed,
    expected,
    standardError: isConstant
      ? null
      : Math.sqrt(largeSampleVariance(share, rows, columns, value, expected) / total) / room,
    standardErrorUnderZero: isConstant
      ? null
      : Math.sqrt(
          atLeastZero(
            expected +
              expected ** 2 -
              sum(margins.map(({ row, column }) => row * column * (row + column))),
          ) / total,
        ) / room,
    greatestPossible:
      (sum(margins.map(({ row, column }) => Math.min(row, column))) - expected) / room,
    adjusted: (size * observed - 1) / (size - 1),
  };
}

/** Cohen's kappa of a two-by-two table; see `cohenKappa`. */
export function kappaOf(table: TwoByTwo): Kappa | NotComputable<KappaReason> {
  return cohenKappa([
    [table.bothOn, table.firstOnly],
    [table.secondOnly, table.bothOff],
  ]);
}

export interface KappaIndices {
  readonly kind: "computed";
  /** (both on - both off) / compared: near +1 or -1 kappa is low even where records nearly always match. */
  readonly prevalence: number;
  /** (first alone on - second alone on) / compared: above 0 the first record says "on" more often. */
  readonly bias: number;
}

/** Prevalence and bias index, each from -1 to 1. Source: Byrt, Bishop & Carlin (1993), as above. */
export function kappaIndices(table: TwoByTwo): KappaIndices | NotComputable<"no-pairs"> {
  if (table.compared === 0) return notComputable("no-pairs");
  return {
    kind: "computed",
    prevalence: (table.bothOn - table.bothOff) / table.compared,
    bias: (table.firstOnly - table.secondOnly) / table.compared,
  };
}

function largeSampleVariance(
  share: readonly (readonly number[])[],
  rows: readonly number[],
  columns: readonly number[],
  kappa: number,
  expected: number,
): number {
  const miss = 1 - kappa;
  let onDiagonal = 0;
  let offDiagonal = 0;
  share.forEach((row, i) => {
    row.forEach((cell, j) => {
      if (i === j) onDiagonal += cell * (1 - (at(rows, i) + at(columns, i)) * miss) ** 2;
      else offDiagonal += cell * (at(columns, i) + at(rows, j)) ** 2;
    });
  });
  return atLeastZero(onDiagonal + miss ** 2 * offDiagonal - (kappa - expected * miss) ** 2);
}

function requireSquareCounts(counts: readonly (readonly number[])[]): void {
  if (counts.length < 2)
    throw new RangeError(`counts must have at least two categories; got ${counts.length}.`);
  if (counts.some((row) => row.length !== counts.length))
    throw new RangeError(
      `counts must have as many columns as rows; got ${counts.map((row) => row.length).join(", ")}.`,
    );
  if (counts.flat().some((count) => !Number.isFinite(count) || count < 0))
    throw new RangeError(`counts must be numbers from 0 up; got ${counts.flat().join(", ")}.`);
}

// Rounding can leave a variance that is truly 0 a hair below it.
const atLeastZero = (value: number): number => Math.max(0, value);

const at = (values: readonly number[], index: number): number => values[index] ?? 0;

const sum = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0);
