/** Chances of 0, 1, 2 ...; they add up to 1. */
export type Distribution = Float64Array;

/** All of the chance on one number. */
export function always(value: number): Distribution {
  const chances = new Float64Array(value + 1);
  chances[value] = 1;
  return chances;
}

export function meanOf(chances: Distribution): number {
  return chances.reduce((sum, chance, value) => sum + value * chance, 0);
}

export function varianceOf(chances: Distribution): number {
  const mean = meanOf(chances);
  return chances.reduce((sum, chance, value) => sum + (value - mean) ** 2 * chance, 0);
}

/** P(X >= value). */
export function chanceAtLeast(chances: Distribution, value: number): number {
  let below = 0;
  for (let each = 0; each < value && each < chances.length; each++) below += chances[each] ?? 0;
  return Math.max(0, 1 - below);
}

/**
 * The smallest number that is not passed with at least the chance `level`.
 *
 * Example: quantileOf(new Float64Array([0.2, 0.5, 0.3]), 0.5) // 1
 */
export function quantileOf(chances: Distribution, level: number): number {
  let sum = 0;
  for (const [value, chance] of chances.entries()) {
    sum += chance;
    if (sum >= level - 1e-12) return value;
  }
  return chances.length - 1;
}

/** The sum of two independent numbers. */
export function sumOf(left: Distribution, right: Distribution): Distribution {
  const sum = new Float64Array(left.length + right.length - 1);
  for (const [i, weight] of left.entries()) {
    if (weight === 0) continue;
    for (const [j, chance] of right.entries()) sum[i + j] = (sum[i + j] ?? 0) + weight * chance;
  }
  return sum;
}

/** The sum of `times` independent draws. */
export function repeated(chances: Distribution, times: number): Distribution {
  let sum = always(0);
  for (let each = 0; each < times; each++) sum = sumOf(sum, chances);
  return sum;
}

/** Poisson chances, up to where less than 1e-9 is left. */
export function poisson(mean: number): Distribution {
  if (mean <= 0) return always(0);
  const chances: number[] = [];
  let logTerm = -mean;
  let left = 1;
  for (let value = 0; value <= mean || left > 1e-9; value++) {
    const chance = Math.exp(logTerm);
    chances.push(chance);
    left -= chance;
    logTerm += Math.log(mean / (value + 1));
    if (value > mean && chance < 1e-15) break;
  }
  return Float64Array.from(chances);
}
