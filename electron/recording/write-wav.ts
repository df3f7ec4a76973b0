import { pcm16Bytes, toPcm16, wavHeader } from "../../shared/sound/wav.ts";
import { writeWholeFile } from "../files/whole-file.ts";
import type { Recording } from "./render-recording.ts";

/** Writes a recording as a 16-bit WAV file, block by block; an existing file is replaced once it is whole. */
export async function writeWav(path: string, recording: Recording): Promise<void> {
  const header = wavHeader(recording.sampleCount, recording.sampleRate);
  await writeWholeFile(path, async (write) => {
    await write(header);
    for (const block of recording.blocks()) await write(pcm16Bytes(toPcm16(block)));
  });
}
