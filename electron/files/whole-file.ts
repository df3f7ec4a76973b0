import { type FileHandle, open, realpath, rm, stat } from "node:fs/promises";
import { renameDurably } from "./durable-file.ts";

/** What the name of a file ends in until it is whole. */
export const unfinished = ".partial";

/** Writes bytes where the last ones ended, or over those at a place in the file. */
export type Write = (bytes: Uint8Array, place?: number) => Promise<void>;

/**
 * Writes a file whole or not at all: beside its place under a name of its own, which becomes the given
 * one once every byte has reached the disk. An existing file is replaced then, and kept when this fails.
 *
 * @throws Error of the file system, or one saying that the file came out shorter than what was written
 */
export async function writeWholeFile(
  path: string,
  fill: (write: Write) => Promise<void>,
): Promise<void> {
  const target = await placeOf(path);
  const partial = target + unfinished;
  try {
    await writeChecked(partial, fill);
    renameDurably(partial, target);
  } catch (cause) {
    await rm(partial, { force: true }).catch(() => undefined);
    throw cause;
  }
}

/** Where a link leads, so that the link stays one; a device or a folder is never replaced. */
async function placeOf(path: string): Promise<string> {
  const place = await realpath(path).catch(() => null);
  if (place === null) return path;
  if ((await stat(place)).isFile()) return place;
  throw new Error(`${path} is there already and is not a file. Choose another name.`);
}

async function writeChecked(path: string, fill: (write: Write) => Promise<void>): Promise<void> {
  const file = await open(path, "w");
  try {
    let end = 0;
    await fill(async (bytes, place) => {
      await writeAll(file, bytes, place ?? end);
      end = Math.max(end, (place ?? end) + bytes.length);
    });
    const { size } = await file.stat();
    if (size !== end) {
      throw new Error(`The file has ${size} bytes in place of ${end}. Is the disk full?`);
    }
  } finally {
    await file.close();
  }
}

/** One write may take only a part of the bytes, as on a disk that is filling up: the rest is asked for again. */
export async function writeAll(
  file: Pick<FileHandle, "write">,
  bytes: Uint8Array,
  place: number,
): Promise<void> {
  for (let done = 0; done < bytes.length; ) {
    const { bytesWritten } = await file.write(bytes, done, bytes.length - done, place + done);
    if (bytesWritten === 0) throw new Error("The disk takes no more bytes. Make some space.");
    done += bytesWritten;
  }
}
