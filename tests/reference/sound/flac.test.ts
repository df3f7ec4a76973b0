import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import type { Recording } from "../../../electron/recording/render-recording.ts";
import { writeFlac } from "../../../electron/recording/write-flac.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { pcm16Bytes, toPcm16 } from "../../../shared/sound/wav.ts";
import { temporaryFolder } from "../../unit/electron/store/temporary-folder.ts";
import { ffmpegIsThere } from "./ffmpeg.ts";

beforeAll(() => {
  if (!ffmpegIsThere) console.warn("ffmpeg is not installed, so no FLAC file was decoded.");
});

/** What ffmpeg's decoder, which checks the sums of every frame, makes of a file. */
function decoded(path: string): { samples: Buffer; complaints: string } {
  const run = spawnSync(
    "ffmpeg",
    [
      ...["-nostdin", "-v", "warning", "-err_detect", "+crccheck+explode"],
      ...["-i", path, "-f", "s16le", "-"],
    ],
    { maxBuffer: 1 << 28 },
  );
  return { samples: run.stdout, complaints: run.stderr.toString("utf8") };
}

function recordingOf(samples: Float32Array, pieces: number): Recording {
  const size = Math.max(1, Math.ceil(samples.length / pieces));
  return {
    sampleRate: 48_000,
    sampleCount: samples.length,
    startSample: 0,
    *blocks() {
      for (let from = 0; from < samples.length; from += size) {
        yield samples.slice(from, from + size);
      }
    },
  };
}

const draw = randomStream("flac", "noise");
const noise = (length: number, gain: number) =>
  Float32Array.from({ length }, () => gain * (2 * draw() - 1));
const tone = (length: number, gain: number) =>
  Float32Array.from({ length }, (_, index) => gain * Math.sin(index / 17));

const sounds: readonly (readonly [name: string, samples: Float32Array, pieces: number])[] = [
  ["one sample", Float32Array.of(-1), 1],
  ["quiet for longer than 2,048 blocks", new Float32Array(2_100 * 4_096), 3],
  ["a tone in pieces that are no whole blocks", tone(50_000, 0.8), 7],
  ["soft noise", noise(20_000, 0.01), 2],
  ["noise at full scale", noise(20_000, 1), 2],
  ["full scale up and down", Float32Array.from({ length: 9_000 }, (_, at) => (at % 2) * 2 - 1), 1],
  ["quiet, then a chime", Float32Array.of(...new Float32Array(6_000), ...tone(3_000, 0.5)), 1],
  ["exactly one block", tone(4_096, 0.3), 1],
];

describe.runIf(ffmpegIsThere)("FLAC files, decoded by ffmpeg", () => {
  test.each(sounds)("%s comes back to the bit", async (_name, samples, pieces) => {
    const path = join(temporaryFolder(), "sound.flac");
    await writeFlac(path, recordingOf(samples, pieces));
    const { samples: back, complaints } = decoded(path);
    expect(complaints).toBe("");
    expect(back.equals(Buffer.from(pcm16Bytes(toPcm16(samples))))).toBe(true);
    expect(
      readFileSync(path)
        .subarray(26, 42)
        .some((byte) => byte !== 0),
    ).toBe(true);
  });
});
