import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { bitWriter } from "../../../electron/recording/bit-writer.ts";
import { flacFrame, flacHeader } from "../../../electron/recording/flac.ts";
import { planRecording } from "../../../electron/recording/render-recording.ts";
import { writeFlac } from "../../../electron/recording/write-flac.ts";
import { temporaryFolder } from "../store/temporary-folder.ts";

test("1. bits go out highest first, negative ones in two's complement", () => {
  const out = bitWriter();
  out.write(0b101, 3);
  out.write(-1, 6);
  out.unary(2);
  out.align();
  out.write(-2, 32);
  expect([...out.bytes()]).toEqual([0b10111111, 0b10010000, 0xff, 0xff, 0xff, 0xfe]);
});

// RFC 9639, sections 6 and 8.2: the mark, the block's kind and length, then the stream's facts.
test("2. the header has the layout of RFC 9639", () => {
  const header = flacHeader({ sampleCount: 2 ** 32 + 5, sampleRate: 48_000, digest: null });
  expect(header).toHaveLength(42);
  expect([...header.subarray(0, 8)]).toEqual([0x66, 0x4c, 0x61, 0x43, 0x80, 0x00, 0x00, 0x22]);
  const view = new DataView(header.buffer, header.byteOffset);
  // 20 bits of rate, 3 of channels less one, 5 of bits less one, 36 of samples.
  expect(view.getBigUint64(18)).toBe(
    (48_000n << 44n) | (0n << 41n) | (15n << 36n) | (2n ** 32n + 5n),
  );
});

// What is inside a frame is held by an outside decoder in tests/reference/sound/flac.test.ts.
test("3. a frame of quiet is a few bytes, whatever its length", () => {
  expect(flacFrame(new Int16Array(4096), 0, 48_000)).toHaveLength(11);
  expect(flacFrame(new Int16Array(1000), 200, 48_000).length).toBeLessThanOrEqual(14);
});

test("4. a recording that is mostly quiet takes a small part of its room", async () => {
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
