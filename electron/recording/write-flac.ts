import { toPcm16 } from "../../shared/sound/wav.ts";
import { writeWholeFile } from "../files/whole-file.ts";
import { digestPlace, flacEncoder } from "./flac-encoder.ts";
import type { Recording } from "./render-recording.ts";

/** Encoded at one go: a session may be running beside, and its cues must not wait. */
const pieceSamples = 1 << 16;

/**
 * Writes a recording as a 16-bit FLAC file, piece by piece: the same samples as the WAV file, in a small
 * part of the room, because a recording is mostly quiet. An existing file is replaced once this one is whole.
 */
export async function writeFlac(path: string, recording: Recording): Promise<void> {
  const encoder = await flacEncoder(recording.sampleCount, recording.sampleRate);
  try {
    await writeWholeFile(path, async (write) => {
      for (const piece of pieces(recording)) await write(encoder.encode(piece));
      const { rest, digest } = encoder.finish();
      await write(rest);
      await write(digest, digestPlace);
    });
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
