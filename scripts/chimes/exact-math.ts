/**
 * Sine and exponential from additions, multiplications and divisions alone. The language leaves the
 * last bits of Math.sin and Math.exp to each engine but fixes those of + - * /, so the chimes made
 * with these come out the same to the byte on every machine.
 */

const tau = 6.283185307179586;

/**
 * Sine of an angle given in turns (1 is a full circle), to about 1e-15. In turns the reduction to one
 * circle is exact, however many have gone by.
 */
export function sineOfTurns(turns: number): number {
  const part = turns - Math.floor(turns);
  // Fold to a quarter of a turn either side of zero, where the series is short.
  const folded = part <= 0.25 ? part : part <= 0.75 ? 0.5 - part : part - 1;
  const x = folded * tau;
  const squared = x * x;
  let term = x;
  let sum = x;
  for (let power = 3; power <= 21; power += 2) {
    term *= -squared / (power * (power - 1));
    sum += term;
  }
  return sum;
}

/** e to the power x, for x from -60 to 60, to about 1e-13 relative. */
export function exponential(x: number): number {
  if (!(Math.abs(x) <= 60)) throw new RangeError(`exponential takes -60 to 60, not ${x}.`);
  // Series on x / 1024, squared back ten times.
  const small = x / 1024;
  let term = 1;
  let sum = 1;
  for (let power = 1; power <= 10; power++) {
    term *= small / power;
    sum += term;
  }
  for (let doubling = 0; doubling < 10; doubling++) sum *= sum;
  return sum;
}
