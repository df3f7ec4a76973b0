import { backUpDaily } from "./backup.ts";
import { connection, inTransaction } from "./connection.ts";
import { lockFolder } from "./folder-lock.ts";
import { type Groups, groupRepository } from "./groups.ts";
import { openDatabase } from "./open-database.ts";
import { type SessionLog, sessionLogRepository } from "./session-log.ts";
import { type Sessions, sessionRepository } from "./sessions.ts";
import { guarded, withStoreErrors } from "./store-error.ts";
import { type Students, studentRepository } from "./students.ts";

export interface StoreOptions {
  /** The data folder; made when it is not there. */
  readonly folder: string;
  /** Wall clock, ms since 1970 UTC. */
  readonly now: () => number;
}

/**
 * All that Pebblechime keeps, one repository for each kind of thing. Every call is synchronous and what
 * it wrote is on the disk when it returns; every failure of the disk or of SQLite is a StoreError.
 */
export interface Store {
  readonly folder: string;
  readonly groups: Groups;
  readonly students: Students;
  readonly sessions: Sessions;
  readonly log: SessionLog;
  /** All that `work` writes is kept, or none of it. */
  transaction<Result>(work: () => Result): Result;
  /** Takes the daily backup if it is due; returns its path or null. Not for the middle of a session. */
  backUpIfDue(): string | null;
  close(): void;
}

/**
 * Takes the data folder for this process and opens what is in it, making it when there is nothing.
 *
 * @throws StoreError; then the folder is free again and its files are as they were
 */
export function openStore({ folder, now }: StoreOptions): Store {
  const lock = lockFolder(folder);
  try {
    const bare = openDatabase(folder, now());
    const open = connection(bare);
    return {
      folder,
      groups: guarded(groupRepository(open)),
      students: guarded(studentRepository(open)),
      sessions: guarded(sessionRepository(open)),
      log: guarded(sessionLogRepository(open)),
      transaction: (work) => withStoreErrors(() => inTransaction(bare, work)),
      backUpIfDue: () => withStoreErrors(() => backUpDaily(bare, folder, now())),
      close() {
        if (!bare.open) return;
        bare.pragma("optimize");
        bare.close();
        lock.release();
      },
    };
  } catch (error) {
    lock.release();
    throw error;
  }
}
