import type Database from "better-sqlite3";
import { type BetterSQLite3Database, drizzle } from "drizzle-orm/better-sqlite3";

/** One open database, seen in two ways: with typed queries, and bare for SQL that only SQLite can say. */
export interface Connection {
  readonly bare: Database.Database;
  readonly typed: BetterSQLite3Database;
}

export function connection(bare: Database.Database): Connection {
  return { bare, typed: drizzle(bare) };
}
