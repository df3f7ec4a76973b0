import type { Howl } from "howler";

/** The part of a Howl's inside that holds decoded sound; not in its published types. */
interface HowlInside {
  readonly _sounds: readonly {
    readonly _node: { bufferSource?: AudioBufferSourceNode | null };
  }[];
  _refreshBuffer(sound: HowlInside["_sounds"][number]): unknown;
}

/**
 * The decoded sound of a loaded Howl. Howler keeps it to itself and hands it out only to a sound that
 * plays at once; this asks it to prepare such a sound and takes the buffer from there. Written for
 * howler 2.2.4, which is pinned.
 *
 * @throws Error when Howler fell back to an audio element, or has changed inside
 */
export function decodedBuffer(howl: Howl): AudioBuffer {
  // Howler's types leave out its inside; every step below is checked.
  const inside = howl as unknown as Partial<HowlInside>;
  const sound = inside._sounds?.[0];
  if (!sound || typeof inside._refreshBuffer !== "function") {
    throw new Error("Howler's inside has changed: no decoded sound was found in it.");
  }
  if (!("gain" in sound._node)) throw new Error("The chime could not be fetched for decoding.");
  inside._refreshBuffer(sound);
  const buffer = sound._node.bufferSource?.buffer;
  sound._node.bufferSource = null;
  if (!buffer) throw new Error("The chime could not be decoded.");
  return buffer;
}
