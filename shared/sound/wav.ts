/** Uncompressed sound: one channel, each sample from -1 to 1. */
export interface Sound {
  readonly sampleRate: number;
  readonly samples: Float32Array;
}

/** The size of the header that `wavHeader` makes, in bytes. */
const wavHeaderBytes = 44;

/** The longest sound a WAV file can hold, in 16-bit samples: its sizes are unsigned 32-bit numbers. */
const mostSamples = Math.floor((0xffff_ffff - wavHeaderBytes) / 2);

/**
 * The 44-byte header of a one-channel, 16-bit PCM WAV file (RIFF "WAVE" with a 16-byte "fmt " chunk).
 *
 * @param sampleCount samples that follow the header
 * @param sampleRate samples per second
 * @throws RangeError when the sound is too long for the format (4 GiB)
 */
export function wavHeader(sampleCount: number, sampleRate: number): Uint8Array {
  if (!Number.isInteger(sampleCount) || sampleCount < 0 || sampleCount > mostSamples) {
    throw new RangeError(
      `sampleCount must be from 0 to ${mostSamples}; got ${sampleCount}. Shorten the recording.`,
    );
  }
  const dataBytes = sampleCount * 2;
  const bytes = new Uint8Array(wavHeaderBytes);
  const view = new DataView(bytes.buffer);
  writeTag(bytes, 0, "RIFF");
  view.setUint32(4, 36 + dataBytes, true);
  writeTag(bytes, 8, "WAVE");
  writeTag(bytes, 12, "fmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * 2, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  writeTag(bytes, 36, "data");
  view.setUint32(40, dataBytes, true);
  return bytes;
}

/**
 * Samples from -1 to 1 as 16-bit numbers, rounded to the nearest step of 1/32768; anything louder is
 * held at full scale.
 */
export function toPcm16(samples: Float32Array | Float64Array): Int16Array {
  // A plain loop: `Int16Array.from` takes ten times as long, and a session has 60 million samples.
  const pcm = new Int16Array(samples.length);
  for (let index = 0; index < samples.length; index++) {
    const step = Math.round((samples[index] ?? 0) * 32768);
    pcm[index] = Math.max(-32768, Math.min(32767, step));
  }
  return pcm;
}

/** The bytes of 16-bit samples in WAV order (least significant byte first, whatever the machine's own). */
export function pcm16Bytes(pcm: Int16Array): Uint8Array {
  const bytes = new Uint8Array(pcm.length * 2);
  const view = new DataView(bytes.buffer);
  for (let index = 0; index < pcm.length; index++) {
    view.setInt16(index * 2, pcm[index] ?? 0, true);
  }
  return bytes;
}

/** A whole one-channel, 16-bit WAV file. */
export function encodeWav(
  samples: Float32Array | Float64Array,
  sampleRate: number,
): Uint8Array<ArrayBuffer> {
  const data = pcm16Bytes(toPcm16(samples));
  const file = new Uint8Array(wavHeaderBytes + data.length);
  file.set(wavHeader(samples.length, sampleRate));
  file.set(data, wavHeaderBytes);
  return file;
}

/**
 * Reads a 16-bit PCM WAV file; several channels are averaged into one. Chunks it does not know are
 * skipped, as the format asks of readers.
 *
 * @throws Error with a sentence saying what is wrong when the bytes are not such a file
 */
export function decodeWav(file: Uint8Array): Sound {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  if (file.length < 12 || readTag(file, 0) !== "RIFF" || readTag(file, 8) !== "WAVE") {
    throw new Error("This is not a WAV file: it does not begin with RIFF and WAVE.");
  }
  let format: { channels: number; sampleRate: number } | null = null;
  for (let at = 12; at + 8 <= file.length; ) {
    const tag = readTag(file, at);
    const size = view.getUint32(at + 4, true);
    const start = at + 8;
    if (start + size > file.length) {
      throw new Error(`The WAV file is cut short: its "${tag}" part ends beyond the file.`);
    }
    if (tag === "fmt ") format = readFormat(view, start, size);
    if (tag === "data") {
      if (!format) throw new Error("The WAV file has sound before it says in which format.");
      return {
        sampleRate: format.sampleRate,
        samples: mixDown(view, start, size, format.channels),
      };
    }
    // Parts start on even bytes.
    at = start + size + (size % 2);
  }
  throw new Error("The WAV file holds no sound.");
}

function readFormat(view: DataView, start: number, size: number) {
  if (size < 16) throw new Error("The WAV file's format part is cut short.");
  const coding = view.getUint16(start, true);
  const channels = view.getUint16(start + 2, true);
  const bits = view.getUint16(start + 14, true);
  if (coding !== 1 || bits !== 16 || channels < 1) {
    throw new Error(
      `Only 16-bit PCM is read here, not coding ${coding} with ${bits} bits and ${channels} channels.`,
    );
  }
  return { channels, sampleRate: view.getUint32(start + 4, true) };
}

function mixDown(view: DataView, start: number, size: number, channels: number): Float32Array {
  const frames = Math.floor(size / (2 * channels));
  const samples = new Float32Array(frames);
  for (let frame = 0; frame < frames; frame++) {
    let sum = 0;
    for (let channel = 0; channel < channels; channel++) {
      sum += view.getInt16(start + 2 * (frame * channels + channel), true);
    }
    samples[frame] = sum / channels / 32768;
  }
  return samples;
}

function writeTag(bytes: Uint8Array, at: number, tag: string): void {
  for (let index = 0; index < 4; index++) bytes[at + index] = tag.charCodeAt(index);
}

function readTag(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}
