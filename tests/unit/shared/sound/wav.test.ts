import { describe, expect, test } from "vitest";
import { decodeWav, encodeWav, toPcm16, wavHeader } from "../../../../shared/sound/wav.ts";

describe("WAV files", () => {
  test("come back as they were, to the nearest of 65536 steps", () => {
    const samples = Float32Array.from([0, 0.5, -0.5, 1 / 32768, -1, 0.99996948]);
    const { sampleRate, samples: back } = decodeWav(encodeWav(samples, 48_000));
    expect(sampleRate).toBe(48_000);
    expect([...back]).toEqual([...Float32Array.from([0, 0.5, -0.5, 1 / 32768, -1, 32767 / 32768])]);
  });

  test("hold loud samples at full scale", () => {
    expect([...toPcm16(Float32Array.from([1, 2, -1, -2]))]).toEqual([32767, 32767, -32768, -32768]);
  });

  test("have the header that the format prescribes", () => {
    // Field by field from the RIFF/WAVE format: sizes, PCM = 1, channels, rate, bytes a second, frame, bits.
    const view = new DataView(wavHeader(1000, 48_000).buffer);
    expect(view.getUint32(4, true)).toBe(36 + 2000);
    expect(view.getUint16(20, true)).toBe(1);
    expect(view.getUint16(22, true)).toBe(1);
    expect(view.getUint32(24, true)).toBe(48_000);
    expect(view.getUint32(28, true)).toBe(96_000);
    expect(view.getUint16(32, true)).toBe(2);
    expect(view.getUint16(34, true)).toBe(16);
    expect(view.getUint32(40, true)).toBe(2000);
  });

  test("with unknown parts and two channels are read and mixed", () => {
    const plain = encodeWav(Float32Array.from([0.5, 0.25, -0.5, -0.25]), 44_100);
    new DataView(plain.buffer).setUint16(22, 2, true);
    // An odd-sized part is padded to an even length.
    const note = [...Buffer.from("note"), 3, 0, 0, 0, 1, 2, 3, 0];
    const file = Uint8Array.from([...plain.subarray(0, 36), ...note, ...plain.subarray(36)]);
    expect([...decodeWav(file).samples]).toEqual([0.375, -0.375]);
  });

  test.each([
    ["text", Buffer.from("not a sound at all, just words that go on"), "not a WAV file"],
    ["nothing", new Uint8Array(), "not a WAV file"],
    ["half a file", encodeWav(new Float32Array(100), 48_000).subarray(0, 100), "cut short"],
    ["a header alone", encodeWav(new Float32Array(1), 48_000).subarray(0, 36), "holds no sound"],
  ])("refuse %s in a sentence", (_what, bytes, sentence) => {
    expect(() => decodeWav(bytes)).toThrow(sentence);
  });

  test("refuse other codings and too much sound", () => {
    const eightBit = encodeWav(new Float32Array(4), 48_000);
    new DataView(eightBit.buffer).setUint16(34, 8, true);
    expect(() => decodeWav(eightBit)).toThrow("Only 16-bit PCM");
    expect(() => wavHeader(2 ** 31, 48_000)).toThrow("Shorten the recording");
  });
});
