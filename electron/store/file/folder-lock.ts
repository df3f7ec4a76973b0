import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { z } from "zod";
import { StoreError, toStoreError } from "./store-error.ts";

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
  let file: Database.Database | undefined;
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    makePrivateFile(path);
    file = new Database(path, { timeout: 0 });
    file.exec("BEGIN EXCLUSIVE");
  } catch (cause) {
    file?.close();
    const error = toStoreError(cause);
    if (error instanceof StoreError && error.problem === "busy") {
      throw new StoreError("folder-taken", { cause });
    }
    throw error;
  }
  const held = file;
  return { release: () => held.close() };
}

/** Makes an empty file that only its owner may read; SQLite's own side files take over its mode. */
export function makePrivateFile(path: string): void {
  if (!existsSync(path)) writeFileSync(path, "", { mode: 0o600, flag: "a" });
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

/** Tells later starts how to join this one. Readable by the owner only, replaced in one step. */
export function writeRunning(folder: string, running: Running): void {
  const path = runningPath(folder);
  const partial = `${path}.partial`;
  rmSync(partial, { force: true });
  writeFileSync(partial, JSON.stringify(running), { mode: 0o600 });
  renameSync(partial, path);
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
  rmSync(runningPath(folder), { force: true });
}
