import type Database from "better-sqlite3";

/** Whether a database, of whichever version, has a table yet. */
export function hasTable(database: Database.Database, name: string): boolean {
  return (
    database.prepare("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?").get(name) !==
    undefined
  );
}
