import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { planRecording } from "../../../../electron/recording/render-recording.ts";
import { writeFlac } from "../../../../electron/recording/write-flac.ts";
import { pcm16Bytes, toPcm16 } from "../../../../shared/sound/wav.ts";
import { temporaryFolder } from "../store/temporary-folder.ts";

// RFC 9639, sections 6 and 8.2: the mark, the block's kind and length, then the stream's facts.
test("1. the header has the layout of RFC 9639 and the MD5 of the samples", async () => {
  const path = join(temporaryFolder(), "tone.flac");
  const samples = Float32Array.from({ length: 10_001 }, (_, at) => 0.5 * Math.sin(at / 17));
  await writeFlac(path, {
    sampleRate: 48_000,
    sampleCount: samples.length,
    startSample: 0,
    *blocks() {
      yield samples;
    },
  });
  const file = readFileSync(path);
  expect(file.subarray(0, 4).toString("latin1")).toBe("fLaC");
  expect(file[4]).toBe(0x00);
  expect(file.readUIntBE(5, 3)).toBe(34);
  // 20 bits of rate, 3 of channels less one, 5 of bits less one, 36 of samples.
  expect(file.readBigUInt64BE(18)).toBe((48_000n << 44n) | (0n << 41n) | (15n << 36n) | 10_001n);
  const digest = createHash("md5")
    .update(pcm16Bytes(toPcm16(samples)))
    .digest("hex");
  expect(file.subarray(26, 42).toString("hex")).toBe(digest);
});

test("2. a recording that is mostly quiet takes a small part of its room", async () => {
  const path = join(temporaryFolder(), "quiet.flac");
  const recording = planRecording({
    cues: [3.5],
    lengthSeconds: 120,
    chime: "bell",
    volume: 0.5,
    announcements: false,
    load: () => ({ sampleRate: 48_000, samples: new Float32Array(4_800).fill(0.25) }),
  });
  await writeFlac(path, recording);
  expect(readFileSync(path).length).toBeLessThan(0.01 * 2 * recording.sampleCount);
});
