import { readFileSync } from "node:fs";
import { join } from "node:path";
import { isDeepStrictEqual } from "node:util";
import Database from "better-sqlite3";
import { describe, expect, it } from "vitest";
import {
  databaseName,
  listBackups,
  verifyBackup,
} from "../../../../../electron/store/file/backup.ts";
import { newestVersion } from "../../../../../electron/store/file/migrate.ts";
import { temporaryFolder, temporaryStore } from "../temporary-folder.ts";

type Row = Readonly<Record<string, unknown>>;
type Content = ReadonlyMap<string, readonly Row[]>;

/** Every row of every table of a file, and its version. */
function contentOf(path: string): { version: unknown; tables: Content } {
  const database = new Database(path, { readonly: true });
  try {
    const names = database
      .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
      .pluck()
      .all();
    return {
      version: database.pragma("user_version", { simple: true }),
      tables: new Map(
        names.map((name) => [name, database.prepare<[], Row>(`SELECT * FROM "${name}"`).all()]),
      ),
    };
  } finally {
    database.close();
  }
}

/** A data file as that version wrote it, alone in a folder. */
function folderOf(version: number): string {
  const folder = temporaryFolder();
  const database = new Database(join(folder, databaseName));
  database.exec(readFileSync(join(import.meta.dirname, `version-${version}.sql`), "utf8"));
  database.close();
  return folder;
}

/** The rows of the older table that the newer one has not, column for column of the older. */
function lost(older: readonly Row[], newer: readonly Row[] = []): Row[] {
  const left = [...newer];
  return older.filter((row) => {
    const at = left.findIndex((each) =>
      Object.entries(row).every(([column, value]) => isDeepStrictEqual(each[column], value)),
    );
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

const older = Array.from({ length: newestVersion - 1 }, (_, index) => index + 1);

describe.each(older)("a data file of version %i", (version) => {
  it("is opened with everything in it, row by row and column by column", () => {
    const folder = folderOf(version);
    const path = join(folder, databaseName);
    const before = contentOf(path);
    expect(before.version).toBe(version);
    const store = temporaryStore(folder);
    // What the app reads of it is whole too, to the last entry of each log.
    const sessions = before.tables.get("session") ?? [];
    const entries = sessions.flatMap(({ id }) => store.log.read(String(id), 0));
    expect(entries).toHaveLength(before.tables.get("session_event")?.length ?? 0);
    expect(sessions.length).toBeGreaterThan(0);
    store.close();
    const after = contentOf(path);
    expect(after.version).toBe(newestVersion);
    for (const [table, rows] of before.tables) {
      expect(lost(rows, after.tables.get(table)), table).toEqual([]);
    }
  });

  it("is kept as it was in a verified backup from before, and only once", () => {
    const folder = folderOf(version);
    const before = contentOf(join(folder, databaseName));
    temporaryStore(folder).close();
    const [backup, ...more] = listBackups(folder).filter(({ kind }) => kind !== "daily");
    expect(backup?.kind).toBe("before-migration");
    expect(more).toEqual([]);
    verifyBackup(backup?.path ?? "");
    expect(contentOf(backup?.path ?? "")).toEqual(before);
    temporaryStore(folder).close();
    expect(listBackups(folder).filter(({ kind }) => kind !== "daily")).toHaveLength(1);
  });
});

it("the richest of them has a row in every table that versions since keep", () => {
  const { tables } = contentOf(join(folderOf(newestVersion), databaseName));
  const empty = [...tables].filter(([, rows]) => rows.length === 0).map(([name]) => name);
  // Only while an erasure runs.
  expect(empty).toEqual(["erasure"]);
});
