import {
  lstatSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import Database from "better-sqlite3";
import { z } from "zod";
import { StoreError, toStoreError, withStoreErrors } from "./store-error.ts";

/** Held by the one process that uses a data folder. */
export interface FolderLock {
  release(): void;
}

/**
 * Takes the data folder for this process, making the folder if need be.
 *
 * The lock is an exclusive SQLite transaction on a file of its own. The system drops it when the
 * process ends, however it ends, so it is never stale and needs no process numbers.
 *
 * @throws StoreError `folder-taken` when another process has it
 */
export function lockFolder(folder: string): FolderLock {
  const path = join(folder, "lock.sqlite");
  const held = withStoreErrors(() => {
    makeFolder(folder);
    makePrivateFile(path);
    try {
      return lockFile(path);
    } catch (cause) {
      if (!isDamage(cause)) throw cause;
      // Nothing is in it. It is emptied where it lies: another start may be at the same.
      truncateSync(path);
      return lockFile(path);
    }
  });
  return { release: () => held.close() };
}

/** Not Node's own recursive way, which never comes back from a place such as /proc. */
function makeFolder(folder: string): void {
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() === true) return;
  const parent = dirname(folder);
  if (parent !== folder) makeFolder(parent);
  mkdirSync(folder, { mode: 0o700 });
}

/** Two that start at once stand in each other's way for a moment; one of them must get in. */
const tryForMs = 500;

function lockFile(path: string): Database.Database {
  const file = new Database(path, { timeout: tryForMs });
  try {
    file.exec("BEGIN EXCLUSIVE");
    return file;
  } catch (cause) {
    file.close();
    const error = toStoreError(cause);
    if (!(error instanceof StoreError) || error.problem !== "busy") throw error;
    throw new StoreError("folder-taken", { cause });
  }
}

const isThere = (error: unknown): boolean =>
  error instanceof Error && "code" in error && error.code === "EEXIST";

const isDamage = (error: unknown): boolean =>
  error instanceof StoreError && error.problem === "damaged";

/**
 * Makes an empty file that only its owner may read; SQLite's own side files take over its mode.
 *
 * @throws StoreError `foreign` when a link or anything but a file lies there: what is written would go
 *   where others want it
 */
export function makePrivateFile(path: string): void {
  try {
    writeFileSync(path, "", { mode: 0o600, flag: "wx" });
  } catch (error) {
    // Not with a look first: another start may make it between the two.
    if (!isThere(error)) throw error;
    if (!lstatSync(path).isFile()) throw new StoreError("foreign");
  }
}

const runningSchema = z.strictObject({
  host: z.enum(["electron", "loopback"]),
  /** Where a second start finds the first: an address for loopback, null for a window. */
  address: z.string().max(200).nullable(),
  /** What the first accepts from a second start in place of a log-in. */
  joinSecret: z.string().max(200).nullable(),
});
/** What a second start needs to join the first; written by the host that holds the lock. */
export type Running = z.infer<typeof runningSchema>;

const runningPath = (folder: string): string => join(folder, "running.json");

/**
 * Tells later starts how to join this one. Readable by the owner only, replaced in one step. Where it
 * cannot be written, as on a full disk, a later start says that the folder is taken and no more.
 */
export function writeRunning(folder: string, running: Running): void {
  const path = runningPath(folder);
  const partial = `${path}.partial`;
  try {
    withStoreErrors(() => {
      rmSync(partial, { force: true });
      writeFileSync(partial, JSON.stringify(running), { mode: 0o600, flag: "wx" });
      renameSync(partial, path);
    });
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
  }
}

/**
 * How to join the process that holds the folder, or null when it has not told (yet). After a crash the
 * file outlives its writer: believe it only while the lock is taken.
 */
export function readRunning(folder: string): Running | null {
  try {
    return runningSchema.parse(JSON.parse(readFileSync(runningPath(folder), "utf8")));
  } catch {
    return null;
  }
}

export function removeRunning(folder: string): void {
  try {
    withStoreErrors(() => rmSync(runningPath(folder), { force: true }));
  } catch (error) {
    // Left lying it is believed by nobody: the lock is free.
    if (!(error instanceof StoreError)) throw error;
  }
}
