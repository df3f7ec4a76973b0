import type Database from "better-sqlite3";

/** Runs `work` as one transaction that takes the write lock at once: all of it is kept, or none. */
export function inTransaction<Result>(bare: Database.Database, work: () => Result): Result {
  if (bare.inTransaction) return work();
  return bare.transaction(work).immediate();
}
