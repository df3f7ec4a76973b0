import { open } from "node:fs/promises";
import type { Recording } from "./render-recording.ts";
import { pcm16Bytes, toPcm16, wavHeader } from "./wav.ts";

/** Writes a recording as a 16-bit WAV file, block by block; an existing file is replaced. */
export async function writeWav(path: string, recording: Recording): Promise<void> {
  const header = wavHeader(recording.sampleCount, recording.sampleRate);
  const file = await open(path, "w");
  try {
    await file.write(header);
    for (const block of recording.blocks()) await file.write(pcm16Bytes(toPcm16(block)));
  } finally {
    await file.close();
  }
}
