import { dot } from "../serial-least-squares.ts";
import { type CaseSeries, columnsOf, inverse, inverseTimes, type Two } from "./case-algebra.ts";
import type { BetweenCaseFit } from "./fit.ts";

/**
 * Expected information of the variance between cases, the correlation of neighbours and the variance within,
 * in this order, under restricted likelihood: half the trace of Q V_j Q V_k. O(points).
 *
 * Source: Harville DA (1977), JASA 72:320-338.
 */
export function varianceInformation(
  cases: readonly CaseSeries[],
  fit: BetweenCaseFit,
): readonly (readonly number[])[] {
  const parts = cases.map((each) => ofCase(each, fit));
  const fixed = inverse(
    parts.reduce<Two>(
      (sum, { design }) => ({ a: sum.a + design.a, b: sum.b + design.b, d: sum.d + design.d }),
      { a: 0, b: 0, d: 0 },
    ),
  );
  const add = (pick: (part: (typeof parts)[number]) => readonly number[]) =>
    parts.reduce((sum, part) => sum.map((each, at) => each + (pick(part)[at] ?? 0)), [0, 0, 0, 0]);
  const indices = [0, 1, 2];
  // X' A V_j A X of all cases, row by row.
  const single = indices.map((j) => add((part) => part.single[j] ?? []));
  return indices.map((j) =>
    indices.map((k) => {
      const own = parts.reduce((sum, part) => sum + (part.traces[j]?.[k] ?? 0), 0);
      const double = add((part) => part.double[j]?.[k] ?? []);
      const both = traceOfProduct(times(fixed, single[j] ?? []), times(fixed, single[k] ?? []));
      return 0.5 * (own - 2 * trace(times(fixed, double)) + both);
    }),
  );
}

type Square = readonly number[];

const trace = (m: Square): number => (m[0] ?? 0) + (m[3] ?? 0);

const times = ({ a, b, d }: Two, m: Square): Square => [
  a * (m[0] ?? 0) + b * (m[2] ?? 0),
  a * (m[1] ?? 0) + b * (m[3] ?? 0),
  b * (m[0] ?? 0) + d * (m[2] ?? 0),
  b * (m[1] ?? 0) + d * (m[3] ?? 0),
];

const traceOfProduct = (m: Square, n: Square): number =>
  (m[0] ?? 0) * (n[0] ?? 0) +
  (m[1] ?? 0) * (n[2] ?? 0) +
  (m[2] ?? 0) * (n[1] ?? 0) +
  (m[3] ?? 0) * (n[3] ?? 0);

/** What one case adds: A is its inverse covariance, V_j the derivative of its covariance. */
function ofCase(series: CaseSeries, { between, within, phi }: BetweenCaseFit) {
  const n = series.values.length;
  const ones = new Float64Array(n).fill(1);
  // A = (P - share w w') / within, with P the inverse correlation and w = P 1.
  const w = inverseTimes(ones, phi);
  const sum = dot(w, ones);
  const share = between / within / (1 + (between / within) * sum);
  const apply = (vector: ArrayLike<number>): Float64Array => {
    const off = share * dot(w, vector);
    return inverseTimes(vector, phi).map((each, at) => (each - off * (w[at] ?? 0)) / within);
  };
  const design = columnsOf(series);
  const weighted = design.map(apply);
  const derivatives = [
    (vector: Float64Array) => new Float64Array(n).fill(dot(ones, vector)),
    (vector: Float64Array) => slopeTimes(vector, phi).map((each) => within * each),
    (vector: Float64Array) => correlationTimes(vector, phi),
  ];
  const cells = (left: readonly Float64Array[], right: readonly Float64Array[]) =>
    left.flatMap((row) => right.map((column) => dot(row, column)));
  /** V_j A X. */
  const ofWeighted = derivatives.map((times) => weighted.map(times));
  return {
    design: {
      a: dot(design[0], weighted[0] ?? []),
      b: dot(design[1], weighted[0] ?? []),
      d: dot(design[1], weighted[1] ?? []),
    },
    traces: traces(w, sum, share, within, phi),
    single: ofWeighted.map((columns) => cells(weighted, columns)),
    double: ofWeighted.map((left) => ofWeighted.map((right) => cells(left, right.map(apply)))),
  };
}

/**
 * Traces of A V_j A V_k without a matrix: A V_between = A 1 1', A V_within = (I - share w 1') / within, and
 * A V_phi = P D - share w (D w)', with D the derivative of the correlation matrix, whose tr(P D) and tr(P D P D)
 * are known from its determinant.
 */
function traces(w: Float64Array, sum: number, share: number, within: number, phi: number) {
  const n = w.length;
  const rest = 1 - share * sum;
  const level = (sum * rest) / within; // 1' A 1
  const dw = slopeTimes(w, phi);
  const bent = dot(w, dw); // w' D w
  const room = 1 - phi * phi;
  const pd = (-2 * phi * (n - 1)) / room;
  const pdpd = (2 * (n - 1) * (1 + phi * phi)) / (room * room);
  const levelPhi = (rest * rest * bent) / within;
  const phiWithin = (pd - share * bent - share * rest * bent) / within;
  const phiPhi = pdpd - 2 * share * dot(dw, inverseTimes(dw, phi)) + (share * bent) ** 2;
  const levelWithin = (level * rest) / within;
  const withinWithin = (n - 2 * share * sum + (share * sum) ** 2) / (within * within);
  return [
    [level * level, levelPhi, levelWithin],
    [levelPhi, phiPhi, phiWithin],
    [levelWithin, phiWithin, withinWithin],
  ];
}

/** The correlation matrix times a vector, in O(points). */
function correlationTimes(vector: Float64Array, phi: number): Float64Array {
  return bothWays(vector, (one) => {
    const found = new Float64Array(one.length);
    let carried = 0;
    for (let at = 0; at < one.length; at += 1) {
      found[at] = carried;
      carried = phi * (carried + (one[at] ?? 0));
    }
    return found;
  }).map((each, at) => each + (vector[at] ?? 0));
}

/** Its derivative by phi times a vector: the sum over earlier and later points of gap phi^(gap - 1). */
function slopeTimes(vector: Float64Array, phi: number): Float64Array {
  return bothWays(vector, (one) => {
    const found = new Float64Array(one.length);
    let [plain, sloped] = [0, 0];
    for (let at = 0; at < one.length; at += 1) {
      found[at] = sloped;
      plain = phi * plain + (one[at] ?? 0);
      sloped = phi * sloped + plain;
    }
    return found;
  });
}

/** Adds what comes from earlier points to what comes from later ones. */
function bothWays(vector: Float64Array, earlier: (one: Float64Array) => Float64Array) {
  const before = earlier(vector);
  const after = earlier(vector.toReversed()).toReversed();
  return before.map((each, at) => each + (after[at] ?? 0));
}
