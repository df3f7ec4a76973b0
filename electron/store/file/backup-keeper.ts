import type Database from "better-sqlite3";
import { backUpDaily, type DailyCheck, isProvenUseless, ownBackups } from "./backup.ts";

/** Takes the backups of one open store and knows which of the kept ones are good. */
export interface BackupKeeper {
  /**
   * Takes the daily backup if it is due; one that is found broken does not count.
   *
   * @returns the new backup's path, or null when none was due
   */
  takeIfDue(): string | null;
  /** When the newest backup not found broken was taken, ms since 1970 UTC; null when there is none. */
  lastGoodMs(): number | null;
}

export function backupKeeper(
  database: Database.Database,
  folder: string,
  now: () => number,
): BackupKeeper {
  // Reading a backup through takes a moment, so each is read once in a run of the app.
  const read = new Map<string, boolean>();
  const isGood: DailyCheck = (path) => {
    const known = read.get(path);
    if (known !== undefined) return known;
    const good = !isProvenUseless(path);
    read.set(path, good);
    return good;
  };
  return {
    takeIfDue() {
      const path = backUpDaily(database, folder, now(), isGood);
      if (path !== null) read.set(path, true);
      return path;
    },
    lastGoodMs: () =>
      ownBackups(folder).find(({ path }) => read.get(path) !== false)?.takenMs ?? null,
  };
}
