import { chimeRate } from "../../../shared/sound/loudness.ts";
import {
  type OwnChimeProblem,
  ownChimeBounds,
  prepareOwnChime,
} from "../../../shared/sound/own-chime.ts";
import { encodeWav } from "../../../shared/sound/wav.ts";

/** Why a file cannot be a chime. */
export type ChimeFileProblem = OwnChimeProblem | "too-big" | "unreadable";

export interface ReadChime {
  /** The WAV file to keep, in base64. */
  readonly sound: string;
  /** What the chime is called at first: the file's name without its ending. */
  readonly name: string;
  readonly isQuieter: boolean;
}

/** Ten times the longest chime: what is longer is not even decoded to the end of the page's memory. */
const mostDecodedSeconds = 600;

/**
 * Reads a WAV, MP3 or OGG file as a chime: decoded by the browser, which knows more kinds than we promise,
 * and brought to the loudness of the chimes that ship.
 */
export async function readOwnChime(file: File): Promise<ReadChime | ChimeFileProblem> {
  if (file.size > ownChimeBounds.mostBytes) return "too-big";
  const decoded = await decode(file);
  if (decoded === null) return "unreadable";
  if (decoded.duration > mostDecodedSeconds) return "too-long";
  const channels = Array.from({ length: decoded.numberOfChannels }, (_, channel) =>
    decoded.getChannelData(channel),
  );
  const prepared = prepareOwnChime(channels);
  if (typeof prepared === "string") return prepared;
  const { samples, isQuieter } = prepared;
  return { sound: toBase64(encodeWav(samples, chimeRate)), name: nameOf(file), isQuieter };
}

async function decode(file: File): Promise<AudioBuffer | null> {
  try {
    // A context that only computes: it brings every sound to its own rate.
    const context = new OfflineAudioContext(1, 1, chimeRate);
    return await context.decodeAudioData(await file.arrayBuffer());
  } catch {
    return null;
  }
}

function nameOf({ name }: File): string {
  const bare = name.replace(/\.[^.]*$/, "").trim();
  return bare.slice(0, 60);
}

/** In pieces: a function takes no argument list as long as a chime. */
function toBase64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += 30_000) {
    pieces.push(String.fromCharCode(...bytes.subarray(at, at + 30_000)));
  }
  return btoa(pieces.join(""));
}
