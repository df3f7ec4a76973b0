/** One case: its values in order of time, and which of them lie under the program. */
export interface CaseSeries {
  readonly values: readonly number[];
  readonly treated: readonly boolean[];
}

/** Two columns: one for the level, one for the program. */
export type Columns = readonly [Float64Array, Float64Array];

/**
 * The inverse of a first-order autoregression's correlation matrix times a vector, in O(points): it is
 * tridiagonal.
 *
 * Example: inverseTimes([1, 0], 0.5) // [1.333..., -0.666...]
 */
export function inverseTimes(vector: ArrayLike<number>, phi: number): Float64Array {
  const n = vector.length;
  const found = new Float64Array(n);
  if (n === 1) {
    found[0] = vector[0] ?? 0;
    return found;
  }
  const scale = 1 / (1 - phi * phi);
  for (let at = 0; at < n; at += 1) {
    const inner = at > 0 && at < n - 1;
    const own = (vector[at] ?? 0) * (inner ? 1 + phi * phi : 1);
    const beside = (at > 0 ? (vector[at - 1] ?? 0) : 0) + (at < n - 1 ? (vector[at + 1] ?? 0) : 0);
    found[at] = scale * (own - phi * beside);
  }
  return found;
}

/**
 * The two columns of a case's design.
 *
 * Example: columnsOf({ values: [0.5, 0.8], treated: [false, true] })[1] // [0, 1]
 */
export const columnsOf = ({ treated }: CaseSeries): Columns => [
  new Float64Array(treated.length).fill(1),
  Float64Array.from(treated, (is) => (is ? 1 : 0)),
];

/** A symmetric matrix of two by two, by its three different cells. */
export interface Two {
  readonly a: number;
  readonly b: number;
  readonly d: number;
}

/** Example: determinant({ a: 2, b: 1, d: 3 }) // 5 */
export const determinant = ({ a, b, d }: Two): number => a * d - b * b;

/** Example: inverse({ a: 2, b: 0, d: 4 }) // { a: 0.5, b: 0, d: 0.25 } */
export function inverse(of: Two): Two {
  const det = determinant(of);
  return { a: of.d / det, b: -of.b / det, d: of.a / det };
}
