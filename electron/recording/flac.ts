import { type BitWriter, bitWriter } from "./bit-writer.ts";

// The part of the format that one channel of 16 bits needs. Source: RFC 9639, Free Lossless Audio Codec;
// numbers in brackets are its sections.

/** Samples in every block but the last. */
export const flacBlockSamples = 4096;

const bits = 16;
const mostOrder = 4;
const mostPartitionOrder = 5;
const mostRice = 14;

/**
 * The mark "fLaC" and the one metadata block that every file has (8.2).
 *
 * @param digest MD5 of the samples as signed little-endian bytes; null while it is not known yet
 */
export function flacHeader(facts: {
  readonly sampleCount: number;
  readonly sampleRate: number;
  readonly digest: Uint8Array | null;
}): Uint8Array {
  const out = bitWriter();
  for (const letter of "fLaC") out.write(letter.charCodeAt(0), 8);
  out.write(0x80, 8);
  out.write(34, 24);
  out.write(flacBlockSamples, 16);
  out.write(flacBlockSamples, 16);
  // Sizes of the smallest and largest frame: not told.
  out.write(0, 24);
  out.write(0, 24);
  out.write(facts.sampleRate, 20);
  out.write(0, 3);
  out.write(bits - 1, 5);
  out.write(Math.floor(facts.sampleCount / 2 ** 32), 4);
  out.write(facts.sampleCount >>> 0, 32);
  for (const byte of facts.digest ?? new Uint8Array(16)) out.write(byte, 8);
  return out.bytes();
}

/**
 * One block of samples as a frame (9.2): a constant, a fixed prediction with Rice-coded differences, or
 * the samples themselves, whichever is smallest.
 *
 * @param number of the block in the file, from 0
 */
export function flacFrame(samples: Int16Array, number: number, sampleRate: number): Uint8Array {
  const out = bitWriter();
  writeFrameHeader(out, samples.length, number, sampleRate);
  out.write(crc8(out.bytes()), 8);
  writeSubframe(out, samples);
  out.align();
  out.write(crc16(out.bytes()), 16);
  return out.bytes();
}

function writeFrameHeader(out: BitWriter, length: number, number: number, rate: number): void {
  const isWhole = length === flacBlockSamples;
  out.write(0b11111111111110, 14);
  out.write(0, 2);
  // 4096 has a code of its own; any other length follows in two bytes (9.1.1).
  out.write(isWhole ? 0b1100 : 0b0111, 4);
  // 48 kHz has a code of its own; any other rate is in the metadata (9.1.2).
  out.write(rate === 48_000 ? 0b1010 : 0, 4);
  out.write(0, 4);
  out.write(0b100, 3);
  out.write(0, 1);
  writeNumber(out, number);
  if (!isWhole) out.write(length - 1, 16);
}

/** A whole number in the manner of UTF-8 (9.1.5). */
function writeNumber(out: BitWriter, value: number): void {
  if (value < 0x80) {
    out.write(value, 8);
    return;
  }
  let following = 1;
  while (value >= 2 ** (5 * following + 6)) following++;
  const lead = (0xff << (7 - following)) & 0xff;
  out.write(lead | (value >>> (6 * following)), 8);
  for (let left = following - 1; left >= 0; left--) {
    out.write(0x80 | ((value >>> (6 * left)) & 0x3f), 8);
  }
}

function writeSubframe(out: BitWriter, samples: Int16Array): void {
  const first = samples[0] ?? 0;
  if (samples.every((sample) => sample === first)) {
    out.write(0b00000000, 8);
    out.write(first, bits);
    return;
  }
  const { order, residual } = bestPrediction(samples);
  const coding = bestCoding(residual, order, samples.length);
  if (coding.cost + order * bits >= samples.length * bits) {
    writeVerbatim(out, samples);
    return;
  }
  out.write((0b001000 | order) << 1, 8);
  for (const sample of samples.subarray(0, order)) out.write(sample, bits);
  writeResidual(out, residual, order, coding);
}

function writeVerbatim(out: BitWriter, samples: Int16Array): void {
  out.write(0b00000010, 8);
  for (const sample of samples) out.write(sample, bits);
}

/** The fixed predictor (9.2.5) whose differences are smallest in sum; those after the first `order`. */
function bestPrediction(samples: Int16Array): { order: number; residual: Int32Array } {
  let residual = Int32Array.from(samples);
  let best = { order: 0, residual, size: sizeOf(residual) };
  for (let order = 1; order <= Math.min(mostOrder, samples.length - 1); order++) {
    // Each further order is the difference of the one before.
    const before = residual;
    residual = before.subarray(1).map((value, index) => value - (before[index] ?? 0));
    const size = sizeOf(residual);
    if (size < best.size) best = { order, residual, size };
  }
  return best;
}

function sizeOf(values: Int32Array): number {
  let sum = 0;
  for (const value of values) sum += Math.abs(value);
  return sum;
}

/** How the differences are cut into partitions, with a Rice parameter for each (9.2.7). */
interface Coding {
  readonly partitionOrder: number;
  readonly parameters: readonly number[];
  /** Bits. */
  readonly cost: number;
}

function bestCoding(residual: Int32Array, order: number, length: number): Coding {
  let best: Coding | null = null;
  for (let partitionOrder = 0; partitionOrder <= mostPartitionOrder; partitionOrder++) {
    const size = length / 2 ** partitionOrder;
    if (!Number.isInteger(size) || size <= order) break;
    const chosen = partitions(residual, order, length, partitionOrder).map(bestParameter);
    const cost = chosen.reduce((sum, { cost }) => sum + cost + 4, 6);
    if (best !== null && cost >= best.cost) continue;
    best = { partitionOrder, parameters: chosen.map(({ parameter }) => parameter), cost };
  }
  if (best === null) throw new RangeError("A block of sound needs at least one sample");
  return best;
}

/** The first partition is shorter by the samples that are written out. */
function partitions(
  residual: Int32Array,
  order: number,
  length: number,
  partitionOrder: number,
): Int32Array[] {
  const count = 2 ** partitionOrder;
  const size = length / count;
  return Array.from({ length: count }, (_, index) =>
    residual.subarray(Math.max(0, index * size - order), (index + 1) * size - order),
  );
}

function bestParameter(values: Int32Array): { parameter: number; cost: number } {
  const mean = values.length === 0 ? 0 : (2 * sizeOf(values)) / values.length;
  const parameter = Math.min(mostRice, Math.max(0, Math.floor(Math.log2(mean + 1))));
  let cost = values.length * (parameter + 1);
  for (const value of values) cost += folded(value) >>> parameter;
  return { parameter, cost };
}

/** 0, -1, 1, -2, 2 ... as 0, 1, 2, 3, 4 ... */
const folded = (value: number): number => (value << 1) ^ (value >> 31);

function writeResidual(out: BitWriter, residual: Int32Array, order: number, coding: Coding): void {
  const { partitionOrder, parameters } = coding;
  out.write(0, 2);
  out.write(partitionOrder, 4);
  const length = residual.length + order;
  partitions(residual, order, length, partitionOrder).forEach((values, index) => {
    const parameter = parameters[index] ?? 0;
    out.write(parameter, 4);
    for (const value of values) {
      const number = folded(value);
      out.unary(number >>> parameter);
      out.write(number, parameter);
    }
  });
}

/** Polynomial x^8 + x^2 + x + 1 (9.1.8). */
function crc8(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 0x80 ? ((crc << 1) ^ 0x07) & 0xff : crc << 1;
  }
  return crc;
}

const crc16Table = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = byte << 8;
  for (let bit = 0; bit < 8; bit++) crc = crc & 0x8000 ? ((crc << 1) ^ 0x8005) & 0xffff : crc << 1;
  return crc;
});

/** Polynomial x^16 + x^15 + x^2 + 1 (9.3). */
function crc16(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) crc = ((crc << 8) & 0xffff) ^ (crc16Table[(crc >> 8) ^ byte] ?? 0);
  return crc;
}
