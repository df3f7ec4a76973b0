import { open } from "node:fs/promises";
import { digestPlace, flacEncoder } from "./flac-encoder.ts";
import type { Recording } from "./render-recording.ts";
import { toPcm16 } from "./wav.ts";

/** Encoded at one go: a session may be running beside, and its cues must not wait. */
const pieceSamples = 1 << 16;

/**
 * Writes a recording as a 16-bit FLAC file, piece by piece: the same samples as the WAV file, in a small
 * part of the room, because a recording is mostly quiet. An existing file is replaced.
 */
export async function writeFlac(path: string, recording: Recording): Promise<void> {
  const encoder = await flacEncoder(recording.sampleCount, recording.sampleRate);
  try {
    const file = await open(path, "w");
    try {
      for (const piece of pieces(recording)) await file.write(encoder.encode(piece));
      const { rest, digest } = encoder.finish();
      await file.write(rest);
      await file.write(digest, 0, digest.length, digestPlace);
    } finally {
      await file.close();
    }
  } finally {
    encoder.close();
  }
}

function* pieces(recording: Recording): Generator<Int16Array> {
  for (const block of recording.blocks()) {
    for (let from = 0; from < block.length; from += pieceSamples) {
      yield toPcm16(block.subarray(from, from + pieceSamples));
    }
  }
}
