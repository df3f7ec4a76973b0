import { createHash } from "node:crypto";
import { open } from "node:fs/promises";
import { flacBlockSamples, flacFrame, flacHeader } from "./flac.ts";
import type { Recording } from "./render-recording.ts";
import { pcm16Bytes, toPcm16 } from "./wav.ts";

/**
 * Writes a recording as a 16-bit FLAC file, block by block: the same samples as the WAV file, in a small
 * part of the room, because a recording is mostly quiet. An existing file is replaced.
 */
export async function writeFlac(path: string, recording: Recording): Promise<void> {
  const { sampleCount, sampleRate } = recording;
  const digest = createHash("md5");
  const file = await open(path, "w");
  try {
    await file.write(flacHeader({ sampleCount, sampleRate, digest: null }));
    let number = 0;
    for (const samples of evenBlocks(recording.blocks())) {
      digest.update(pcm16Bytes(samples));
      const frames: Uint8Array[] = [];
      for (let from = 0; from < samples.length; from += flacBlockSamples) {
        const block = samples.subarray(from, from + flacBlockSamples);
        frames.push(flacFrame(block, number++, sampleRate));
      }
      await file.write(Buffer.concat(frames));
    }
    const header = flacHeader({ sampleCount, sampleRate, digest: digest.digest() });
    await file.write(header, 0, header.length, 0);
  } finally {
    await file.close();
  }
}

/** The samples in pieces of whole FLAC blocks; only the last one may end in a shorter block. */
function* evenBlocks(blocks: Iterable<Float32Array>): Generator<Int16Array> {
  let rest = new Int16Array(0);
  for (const block of blocks) {
    const samples = new Int16Array(rest.length + block.length);
    samples.set(rest);
    samples.set(toPcm16(block), rest.length);
    const whole = samples.length - (samples.length % flacBlockSamples);
    if (whole > 0) yield samples.subarray(0, whole);
    rest = samples.slice(whole);
  }
  if (rest.length > 0) yield rest;
}
