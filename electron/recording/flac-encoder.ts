/** Turns samples of one channel into the frames of a FLAC stream, a piece at a time. */
export interface FlacEncoder {
  /** Takes samples and gives the bytes that are ready; the rest follows with later ones. */
  encode(samples: Int16Array): Uint8Array;
  /** The last bytes, and the MD5 of all samples, which belongs into the header. */
  finish(): { rest: Uint8Array; digest: Uint8Array };
  /** Gives the encoder's room back; must be called at the end, also after an error. */
  close(): void;
}

/** Where the header of a file holds the MD5 of its samples. Source: RFC 9639, sections 6 and 8.2. */
export const digestPlace = 26;

const channels = 1;
const bits = 16;
/** The reference encoder's usual level: higher ones take longer and gain little on chimes in quiet. */
const level = 5;

/**
 * The FLAC project's own encoder, compiled to JavaScript, for 16 bits in one channel. The first bytes it
 * gives are the header, in which the MD5 is still zero.
 *
 * @param sampleCount samples that will come in all
 * @throws Error when the encoder refuses, with its state
 */
export async function flacEncoder(sampleCount: number, sampleRate: number): Promise<FlacEncoder> {
  // Only now: the library takes long to load, and most teachers never make a recording. The import stands
  // here because a bundle lifts one at the top of this file to the start of the app.
  const { default: Flac } = await import("libflacjs/dist/libflac.js");
  const id = Flac.create_libflac_encoder(sampleRate, channels, bits, level, sampleCount);
  let ready: Uint8Array[] = [];
  let digest = "";

  const take = () => {
    const bytes = Buffer.concat(ready);
    ready = [];
    return bytes;
  };
  const insist = (did: boolean, what: string) => {
    if (did) return;
    const state = Flac.FLAC__stream_encoder_get_state(id);
    throw new Error(`The FLAC encoder could not ${what} (its state is ${state}).`);
  };

  const begun = Flac.init_encoder_stream(
    id,
    (bytes) => {
      ready.push(bytes);
    },
    (facts) => {
      if (facts !== undefined) digest = facts.md5sum;
    },
  );
  insist(begun === 0, "begin");

  return {
    encode(samples) {
      const wide = new Int32Array(samples);
      insist(Flac.FLAC__stream_encoder_process_interleaved(id, wide, wide.length), "go on");
      return take();
    },
    finish() {
      insist(Flac.FLAC__stream_encoder_finish(id), "finish");
      return { rest: take(), digest: Buffer.from(digest, "hex") };
    },
    close: () => Flac.FLAC__stream_encoder_delete(id),
  };
}
