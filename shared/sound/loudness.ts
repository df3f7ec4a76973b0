/** Samples a second of every chime. */
export const chimeRate = 48_000;

/** Loudness that every chime is brought to, in LUFS. */
export const chimeLufs = -24;

/** `chimeLufs` as mean power: 10^((-24 + 0.691) / 10). */
export const chimePower = 0.004667668449794021;

/**
 * Gated loudness by ITU-R BS.1770 as mean K-weighted power (not in decibels, so that no logarithm is
 * needed): the mean square of the filtered signal over 400 ms blocks that overlap by 75 %, leaving
 * out blocks below -70 LUFS and then those more than 10 LU below the mean of the rest. Loudness in
 * LUFS is -0.691 + 10 log10 of this power.
 *
 * A sound shorter than one block has no loudness under the method; it is padded with silence to one.
 *
 * Filter coefficients: BS.1770, tables 1 and 2, for 48 kHz.
 *
 * @param sound one channel at 48 kHz, full scale 1
 * @returns mean power, 0 when every block is gated out
 */
export function gatedPower(sound: Float64Array): number {
  const weighted = highPass(highShelf(padToBlock(sound)));
  const blocks: number[] = [];
  for (let start = 0; start + blockLength <= weighted.length; start += hopLength) {
    let sum = 0;
    for (const value of weighted.subarray(start, start + blockLength)) sum += value * value;
    blocks.push(sum / blockLength);
  }
  const audible = blocks.filter((power) => power > absoluteGatePower);
  if (audible.length === 0) return 0;
  const gate = mean(audible) / 10;
  return mean(audible.filter((power) => power > gate));
}

const blockLength = 0.4 * chimeRate;
const hopLength = 0.1 * chimeRate;

/** -70 LUFS as power: 10^((-70 + 0.691) / 10). */
const absoluteGatePower = 1.1724653045822981e-7;

function padToBlock(sound: Float64Array): Float64Array {
  if (sound.length >= blockLength) return sound;
  const padded = new Float64Array(blockLength);
  padded.set(sound);
  return padded;
}

/** Stage 1: the shelf that stands for the head. */
function highShelf(sound: Float64Array): Float64Array {
  return biquad(
    sound,
    [1.53512485958697, -2.69169618940638, 1.19839281085285],
    [-1.69065929318241, 0.73248077421585],
  );
}

/** Stage 2: the high-pass. */
function highPass(sound: Float64Array): Float64Array {
  return biquad(sound, [1, -2, 1], [-1.99004745483398, 0.99007225036621]);
}

function biquad(
  sound: Float64Array,
  [b0, b1, b2]: readonly [number, number, number],
  [a1, a2]: readonly [number, number],
): Float64Array {
  let x1 = 0;
  let x2 = 0;
  let y1 = 0;
  let y2 = 0;
  return sound.map((x) => {
    const y = b0 * x + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
    x2 = x1;
    x1 = x;
    y2 = y1;
    y1 = y;
    return y;
  });
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
