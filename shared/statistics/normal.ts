/**
 * The standard normal distribution to full double precision.
 *
 * Source of the distribution function: Cody WJ (1969), "Rational Chebyshev approximations for the
 * error function", Mathematics of Computation 23:631-637, in the arrangement for the normal
 * integral of Cody (1993), Algorithm 715, ACM TOMS 19:22-32. Source of the quantile: Wichura MJ
 * (1988), "Algorithm AS 241: the percentage points of the normal distribution", Applied Statistics
 * 37:477-484, routine PPND16.
 */

/** Value of the polynomial whose coefficients are given from the highest power down. */
const polynomial = (coefficients: readonly number[], x: number): number =>
  coefficients.reduce((sum, coefficient) => sum * x + coefficient, 0);

const centre = {
  over: [
    0.06568233791820745, 2.2352520354606837, 161.02823106855587, 1067.6894854603709,
    18154.98125334356,
  ],
  under: [1, 47.202581904688245, 976.0985517377767, 10260.932208618979, 45507.78933502673],
};
const middle = {
  over: [
    1.0765576773720192e-8, 0.39894151208813466, 8.883149794388377, 93.50665613217785,
    597.2702763948002, 2494.5375852903726, 6848.190450536283, 11602.65143764735, 9842.714838383978,
  ],
  under: [
    1, 22.266688044328117, 235.387901782625, 1519.3775994075547, 6485.558298266761,
    18615.571640885097, 34900.95272114598, 38912.00328609327, 19685.429676859992,
  ],
};
const tail = {
  over: [
    0.023073441764940174, 0.215898534057957, 0.12740116116024736, 0.022235277870649807,
    0.0014216191932278934, 2.9112874951168793e-5,
  ],
  under: [
    1, 1.284260096144911, 0.4682382124808651, 0.06598813786892856, 0.0037823963320275824,
    7.297515550839662e-5,
  ],
};
const inverseRootTwoPi = 0.3989422804014327;

/** exp(-x*x/2) without the rounding error of squaring a large x: x is split at sixteenths. */
function bell(x: number): number {
  const coarse = Math.trunc(x * 16) / 16;
  return Math.exp(-0.5 * coarse * coarse) * Math.exp(-0.5 * (x - coarse) * (x + coarse));
}

/** P(Z > x) for x >= 0.67. */
function farTail(x: number): number {
  if (x > 38.6) return 0;
  if (x <= 5.656854249492381) {
    return bell(x) * (polynomial(middle.over, x) / polynomial(middle.under, x));
  }
  const s = 1 / (x * x);
  const correction = (s * polynomial(tail.over, s)) / polynomial(tail.under, s);
  return (bell(x) * (inverseRootTwoPi - correction)) / x;
}

/**
 * P(Z <= z) for a standard normal Z. Relative error near 1e-15, in the lower tail too.
 *
 * Example: normalCdf(1.96) // 0.975
 */
export function normalCdf(z: number): number {
  if (Number.isNaN(z)) throw new RangeError(`z must be a number; got ${z}.`);
  const x = Math.abs(z);
  if (x <= 0.67448975) {
    const s = z * z;
    return 0.5 + (z * polynomial(centre.over, s)) / polynomial(centre.under, s);
  }
  return z < 0 ? farTail(x) : 1 - farTail(x);
}

/**
 * P(|Z| >= |z|): the two-sided tail, accurate however small.
 *
 * Example: twoSidedTail(1.96) // 0.05
 */
export const twoSidedTail = (z: number): number => Math.min(1, 2 * normalCdf(-Math.abs(z)));

const quantileCentre = {
  over: [
    2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
    1971.5909503065513, 133.14166789178438, 3.3871328727963665,
  ],
  under: [
    5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
    687.1870074920579, 42.31333070160091, 1,
  ],
};
const quantileMiddle = {
  over: [
    0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684,
    3.6478483247632045, 5.769497221460691, 4.630337846156546, 1.4234371107496835,
  ],
  under: [
    1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008,
    0.6897673349851, 1.6763848301838038, 2.053191626637759, 1,
  ],
};
const quantileTail = {
  over: [
    2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124,
    0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
  ],
  under: [
    2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133,
    0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1,
  ],
};

/**
 * The z with P(Z <= z) = p, for 0 < p < 1. Relative error near 1e-16.
 *
 * Example: normalQuantile(0.975) // 1.96
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`p must be between 0 and 1; got ${p}.`);
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(quantileCentre.over, r)) / polynomial(quantileCentre.under, r);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const part = r <= 5 ? quantileMiddle : quantileTail;
  const s = r <= 5 ? r - 1.6 : r - 5;
  const size = polynomial(part.over, s) / polynomial(part.under, s);
  return q < 0 ? -size : size;
}

/** Worked out once: nearly every interval asks for it. */
const usualZ = normalQuantile(0.975);

/**
 * The z that leaves `1 - confidence` in the two tails together: 1.959964 for 0.95.
 *
 * Example: criticalZ(0.95) // 1.96
 */
export function criticalZ(confidence: number): number {
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`confidence must be between 0 and 1; got ${confidence}.`);
  }
  return confidence === 0.95 ? usualZ : normalQuantile(0.5 + confidence / 2);
}
