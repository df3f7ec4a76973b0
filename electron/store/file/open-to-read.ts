import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { migrations } from "../migrations/migrations.ts";
import { databaseName } from "./backup.ts";
import { migrate } from "./migrate.ts";
import { checkPages, refuseForeign } from "./open-database.ts";
import { StoreError, withStoreErrors } from "./store-error.ts";
import { withLog } from "./wal.ts";

/**
 * The data file as it stands, in memory, where the disk lets nothing be written: SQLite's own way needs a
 * file beside it. Nothing on the disk is touched, and whatever would change the data is refused.
 *
 * @param steps all migrations from version 0 on; other than ours only in tests
 * @param first what is done with the copy of whatever version before it is migrated
 * @throws StoreError when there is nothing to read, or it cannot be used
 */
export function openToRead(
  folder: string,
  steps: readonly string[] = migrations,
  first: (database: Database.Database) => void = () => {},
): Database.Database {
  return withStoreErrors(() => {
    const path = join(folder, databaseName);
    const log = `${path}-wal`;
    const file = readFileSync(path);
    if (file.length === 0) throw new StoreError("damaged");
    const database = new Database(
      withLog(file, existsSync(log) ? readFileSync(log) : Buffer.alloc(0)),
    );
    try {
      refuseForeign(database, steps.length);
      checkPages(database);
      first(database);
      migrate(database, steps);
      database.pragma("foreign_keys = ON");
      database.pragma("query_only = ON");
      return database;
    } catch (error) {
      database.close();
      throw error;
    }
  });
}
