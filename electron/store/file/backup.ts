import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { renameDurably } from "../../files/durable-file.ts";
import { lockFolder } from "./folder-lock.ts";
import { applicationId, newestVersion, readNumber } from "./migrate.ts";
import { StoreError, withStoreErrors } from "./store-error.ts";

export const databaseName = "pebblechime.sqlite";
const damagedName = /^pebblechime-damaged-\d{8}T\d{9}Z\.sqlite(-wal|-shm)?$/;

/** What a backup's name ends in, so that the system knows whose it is; those of earlier versions end otherwise. */
export const backupEnding = "pebblechime";

/** `brought` came from elsewhere: it may be of another class. */
export type BackupKind = "daily" | "before-migration" | "brought";

export interface Backup {
  readonly path: string;
  readonly kind: BackupKind;
  /** Wall clock, ms since 1970 UTC. */
  readonly takenMs: number;
}

const backupKinds: readonly BackupKind[] = ["daily", "before-migration", "brought"];

const dayMs = 86_400_000;
const weekMs = 7 * dayMs;
const dailiesKept = 7;
const weekliesKept = 4;

export const backupFolder = (folder: string): string => join(folder, "backups");
const backupName =
  /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)(\d{3})Z-(daily|before-migration|brought)\.(?:pebblechime|sqlite)$/;

/** 20260131T235959999Z: sorts by time and is a valid file name everywhere. */
export function nameStamp(wallMs: number): string {
  return new Date(wallMs).toISOString().replace(/[-:.]/g, "");
}

/** The kept backups, newest first. */
export function listBackups(folder: string): Backup[] {
  const place = statSync(backupFolder(folder), { throwIfNoEntry: false });
  if (place?.isDirectory() !== true) return [];
  return readdirSync(backupFolder(folder))
    .flatMap((name) => {
      const match = backupName.exec(name);
      if (match === null) return [];
      const [year, month, day, hour, minute, second, ms] = match.slice(1, 8).map(Number);
      if (year === undefined || month === undefined) return [];
      const takenMs = Date.UTC(year, month - 1, day, hour, minute, second, ms);
      const kind = backupKinds.find((each) => each === match[8]) ?? "before-migration";
      return [{ path: join(backupFolder(folder), name), kind, takenMs }];
    })
    .sort((a, b) => b.takenMs - a.takenMs);
}

/**
 * Writes a verified copy of an open database to the backups folder and returns its path. The live
 * file may be in use; the copy is compact and one file. Takes about as long as reading the file thrice.
 *
 * @throws StoreError; no half backup is left under a backup's name
 */
export function backUpNow(
  database: Database.Database,
  folder: string,
  kind: BackupKind,
  nowMs: number,
): string {
  mkdirSync(backupFolder(folder), { recursive: true, mode: 0o700 });
  removePartials(folder);
  const path = join(backupFolder(folder), `${nameStamp(nowMs)}-${kind}.${backupEnding}`);
  return finishCopy(path, (partial) => {
    database.prepare("VACUUM INTO ?").run(partial);
  });
}

/**
 * Writes a verified copy to a folder elsewhere, such as a stick's, and returns its path. What keeps a copy
 * there from other people is whoever has the stick: many of them know no permissions.
 *
 * @throws StoreError `read-only` when there is no such folder, or what else is wrong with it
 */
export function backUpElsewhere(
  database: Database.Database,
  elsewhere: string,
  nowMs: number,
): string {
  return withStoreErrors(() => {
    readdirSync(elsewhere);
    const path = join(elsewhere, `pebblechime-copy-${nameStamp(nowMs)}.${backupEnding}`);
    return finishCopy(path, (partial) => {
      database.prepare("VACUUM INTO ?").run(partial);
    });
  });
}

/** Lets `write` make a file under a temporary name, verifies it and only then gives it its name. */
export function finishCopy(path: string, write: (partial: string) => void): string {
  const partial = `${path}.partial`;
  rmSync(partial, { force: true });
  return withStoreErrors(() => {
    try {
      write(partial);
      makePrivate(partial);
      verifyBackup(partial);
      renameDurably(partial, path);
      return path;
    } catch (error) {
      rmSync(partial, { force: true });
      throw error;
    }
  });
}

/** As far as the disk knows modes: a stick's often does not. */
function makePrivate(path: string): void {
  try {
    chmodSync(path, 0o600);
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : null;
    if (code !== "EPERM" && code !== "ENOTSUP" && code !== "ENOSYS") throw error;
  }
}

/** What a crash in the middle of a backup or a restore left behind. */
export function removePartials(folder: string): void {
  for (const place of [folder, backupFolder(folder)]) {
    if (!existsSync(place)) continue;
    for (const name of readdirSync(place)) {
      if (/\.(sqlite|pebblechime)\.partial(-journal|-wal|-shm)?$/.test(name))
        rmSync(join(place, name));
    }
  }
}

/**
 * Reads a backup through: it is ours, whole, and its references agree. An entry that cannot be read is
 * no reason to have no backup of all the others, so what CHECK constraints say is left to the reading.
 *
 * @throws StoreError `damaged` or `foreign`
 */
export function verifyBackup(path: string): void {
  withStoreErrors(() => {
    const copy = new Database(path, { readonly: true, fileMustExist: true });
    try {
      if (readNumber(copy, "application_id") !== applicationId) throw new StoreError("foreign");
      copy.pragma("ignore_check_constraints = ON");
      const answer: unknown = copy.pragma("integrity_check(1)", { simple: true });
      const broken = copy.prepare("PRAGMA foreign_key_check").all();
      if (answer !== "ok" || broken.length > 0) throw new StoreError("damaged");
    } finally {
      copy.close();
    }
  });
}

function isGood(path: string): boolean {
  try {
    verifyBackup(path);
    return true;
  } catch {
    return false;
  }
}

/** Whether a file is surely no backup: broken or another's. A disk that cannot be read proves nothing. */
export function isProvenUseless(path: string): boolean {
  try {
    verifyBackup(path);
    return false;
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    return error.problem === "damaged" || error.problem === "foreign";
  }
}

/** Path of the newest backup made here that passes its checks, or null. */
export function newestGoodBackup(folder: string): string | null {
  return ownBackups(folder).find(({ path }) => isGood(path))?.path ?? null;
}

/**
 * The backups that rotation drops: all daily ones but the newest seven and, of the older, the newest
 * of each of the four latest weeks. Backups from before a migration stay.
 *
 * @param backups newest first
 */
export function expired(backups: readonly Backup[]): Backup[] {
  const older = backups.filter(({ kind }) => kind === "daily").slice(dailiesKept);
  const weeks = new Set<number>();
  return older.filter(({ takenMs }) => {
    const week = Math.floor(takenMs / weekMs);
    const kept = !weeks.has(week) && weeks.size < weekliesKept;
    weeks.add(week);
    return !kept;
  });
}

/** Whether a kept backup may be counted on. */
export type DailyCheck = (path: string) => boolean;

/**
 * Takes the daily backup when the last good one is a day old, then rotates.
 *
 * @returns the new backup's path, or null when none was due
 */
export function backUpDaily(
  database: Database.Database,
  folder: string,
  nowMs: number,
  isGood: DailyCheck,
): string | null {
  const isFresh = ({ kind, takenMs }: Backup): boolean =>
    // A clock set back must not stop backups until it catches up.
    kind === "daily" && Math.abs(nowMs - takenMs) < dayMs;
  if (listBackups(folder).some((backup) => isFresh(backup) && isGood(backup.path))) return null;
  const path = backUpNow(database, folder, "daily", nowMs);
  for (const old of expired(listBackups(folder))) rmSync(old.path, { force: true });
  return path;
}

/**
 * Puts a backup in the place of the data file. The file that was there is kept under a name that says
 * so, with its log beside it; nothing is overwritten. No store may be open on the folder.
 *
 * @returns where the replaced file was kept, or null when there was none
 * @throws StoreError `folder-taken`, or what is wrong with the backup; then nothing was changed
 */
export function restoreBackup(folder: string, backup: string, nowMs: number): string | null {
  const lock = lockFolder(folder);
  try {
    return restoreLocked(folder, backup, nowMs);
  } finally {
    lock.release();
  }
}

/** The same for whoever holds the folder's lock already. */
export function restoreLocked(folder: string, backup: string, nowMs: number): string | null {
  return withStoreErrors(() => {
    const path = join(folder, databaseName);
    const partial = `${path}.partial`;
    verifyBackup(backup);
    refuseNewer(backup);
    copyFileSync(backup, partial);
    chmodSync(partial, 0o600);
    verifyBackup(partial);
    const kept = setAside(folder, nowMs);
    renameDurably(partial, path);
    return kept;
  });
}

/** The backups made here, newest first. */
export const ownBackups = (folder: string): Backup[] =>
  listBackups(folder).filter(({ kind }) => kind !== "brought");

/** A newer version's backup would only be refused at the next start, with the old file set aside. */
export function refuseNewer(path: string): void {
  const backup = new Database(path, { readonly: true, fileMustExist: true });
  try {
    if (readNumber(backup, "user_version") > newestVersion) throw new StoreError("newer");
  } finally {
    backup.close();
  }
}

/** The side files go first: a data file must never meet the log of another. */
function setAside(folder: string, nowMs: number): string | null {
  const path = join(folder, databaseName);
  const kept = join(folder, `pebblechime-damaged-${nameStamp(nowMs)}.sqlite`);
  const there = ["-wal", "-shm", ""].filter((ending) => existsSync(path + ending));
  for (const ending of there) renameSync(path + ending, kept + ending);
  return there.includes("") ? kept : null;
}

/** Replaced files that `restoreBackup` kept, side files included. */
export function listDamaged(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => damagedName.test(name))
    .map((name) => join(folder, name));
}
