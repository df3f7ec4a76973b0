import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { getTableConfig, type SQLiteTable } from "drizzle-orm/sqlite-core";
import { expect, test } from "vitest";
import {
  databaseName,
  listBackups,
  verifyBackup,
} from "../../../../../electron/store/file/backup.ts";
import { migrate, newestVersion } from "../../../../../electron/store/file/migrate.ts";
import { openDatabase } from "../../../../../electron/store/file/open-database.ts";
import { StoreError } from "../../../../../electron/store/file/store-error.ts";
import { migrations } from "../../../../../electron/store/migrations/migrations.ts";
import * as tables from "../../../../../electron/store/tables.ts";
import * as teamTables from "../../../../../electron/store/teams/tables.ts";
import { makeClass } from "../make-class.ts";
import { monday, temporaryFolder, temporaryStore } from "../temporary-folder.ts";

/** A database of every released version, with rows in it; version 0 is an empty file. */
const released: readonly ((database: Database.Database) => void)[] = [
  () => {},
  (database) => database.exec(snapshot(1)),
  (database) => database.exec(snapshot(2)),
  (database) => database.exec(snapshot(3)),
  (database) => database.exec(snapshot(4)),
  (database) => database.exec(snapshot(5)),
  (database) => database.exec(snapshot(6)),
  (database) => database.exec(snapshot(7)),
  (database) => database.exec(snapshot(8)),
  (database) => database.exec(snapshot(9)),
  (database) => database.exec(snapshot(10)),
  (database) => database.exec(snapshot(11)),
  (database) => database.exec(snapshot(12)),
  (database) => database.exec(snapshot(13)),
  (database) => database.exec(snapshot(14)),
];

function snapshot(version: number): string {
  return readFileSync(join(import.meta.dirname, `version-${version}.sql`), "utf8");
}

/** Everything that the database says about its own shape. */
function shapeOf(database: Database.Database): unknown[] {
  return database
    .prepare("SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY type, name")
    .all();
}

function fresh(): Database.Database {
  const database = new Database(":memory:");
  migrate(database);
  return database;
}

test("1. keeps a database of every released version for this test", () => {
  expect(released).toHaveLength(newestVersion + 1);
  expect(migrations).toHaveLength(newestVersion);
});

test.each(released.map((build, version) => ({ version, build })))(
  "2. takes version $version to the newest, to the same shape as a new database",
  ({ build }) => {
    const database = new Database(":memory:");
    database.pragma("foreign_keys = ON");
    build(database);
    migrate(database);
    expect(database.pragma("user_version", { simple: true })).toBe(newestVersion);
    expect(shapeOf(database)).toEqual(shapeOf(fresh()));
    expect(database.prepare("PRAGMA foreign_key_check").all()).toEqual([]);
    expect(database.pragma("integrity_check", { simple: true })).toBe("ok");
  },
);

test("3. opens a file of version 1 with everything that was in it", () => {
  const folder = temporaryFolder();
  const old = new Database(join(folder, databaseName));
  old.exec(snapshot(1));
  old.close();
  const store = temporaryStore(folder);
  const [group] = store.groups.list(false);
  if (group === undefined) throw new Error("The group is gone");
  expect(group).toMatchObject({ name: "Room 4", studentCount: 1 });
  const [session] = store.sessions.list(group.id, 10);
  if (session === undefined) throw new Error("The session is gone");
  expect(store.log.read(session.id, 0).map(({ body }) => body.kind)).toEqual([
    "begun",
    "announced",
    "delivered",
    "mark",
    "ended",
  ]);
  expect(store.plans.list(group.id)).toHaveLength(1);
  expect(listBackups(folder)).toMatchObject([{ kind: "before-migration" }]);
});

test("13. opens a file of version 2 with everything that was in it", () => {
  const folder = temporaryFolder();
  const old = new Database(join(folder, databaseName));
  old.exec(snapshot(2));
  old.close();
  const store = temporaryStore(folder);
  const [group] = store.groups.list(false);
  if (group === undefined) throw new Error("The group is gone");
  expect(store.daysOff.list()).toMatchObject([{ label: "Spring holidays" }]);
  expect(store.programs.get(group.id)).toMatchObject({ stepMeansSeconds: [120, 240, 480] });
  expect(store.decisions.list(group.id)).toMatchObject([{ advice: "thin-cues", accepted: true }]);
  expect(store.practiceExamples.get(group.id)).toEqual({
    working: ["Reading the task again"],
    notWorking: ["Sharpening a sharp pencil"],
  });
  expect(store.imports.list(group.id)).toMatchObject([{ sessions: 1, studentsAdded: 0 }]);
  expect(listBackups(folder)).toHaveLength(newestVersion === 2 ? 0 : 1);
});

test("14. opens a file of version 3 with everything that was in it", () => {
  const folder = temporaryFolder();
  const old = new Database(join(folder, databaseName));
  old.exec(snapshot(3));
  old.close();
  const store = temporaryStore(folder);
  const [group] = store.groups.list(false);
  expect(store.phases.list(group?.id ?? "")).toMatchObject([
    { label: "Before", draw: null, probes: null },
    {
      label: "Self-check",
      // The school days of the span, Monday to Friday, from which that version drew.
      draw: {
        from: "2026-03-09",
        to: "2026-03-20",
        seed: "kiwi",
        days: [9, 10, 11, 12, 13, 16, 17, 18, 19, 20].map(marchDay),
        times: 1,
      },
    },
  ]);
  expect(store.groups.timetable()).toMatchObject([{ weekdays: [1, 2, 3, 4, 5] }]);
  expect(store.programs.get(group?.id ?? "")).toMatchObject({ placeSinceMs: null });
  expect(listBackups(folder)).toHaveLength(newestVersion === 3 ? 0 : 1);
});

test("16. opens a file of version 4 with everything that was in it", () => {
  const folder = temporaryFolder();
  const old = new Database(join(folder, databaseName));
  old.exec(snapshot(4));
  old.close();
  const store = temporaryStore(folder);
  const [group] = store.groups.list(false);
  expect(store.phases.list(group?.id ?? "")).toMatchObject([
    { label: "Before", draw: null, probes: null },
    { draw: { seed: "kiwi", days: [9, 10, 11, 12].map(marchDay), times: 3 }, probes: null },
    {
      kind: "maintenance",
      draw: null,
      probes: { until: "2026-06-30", seed: "plum", days: ["2026-06-03", "2026-06-19"] },
    },
  ]);
  expect(store.groups.timetable()).toMatchObject([{ weekdays: [1, 3, 5] }]);
  expect(store.programs.get(group?.id ?? "")).toMatchObject({ placeSinceMs: 1_773_050_400_000 });
  expect(listBackups(folder)).toHaveLength(newestVersion === 4 ? 0 : 1);
});

test("17. opens a file of version 8 with everything that was in it", () => {
  const folder = temporaryFolder();
  const old = new Database(join(folder, databaseName));
  old.exec(snapshot(8));
  old.close();
  const store = temporaryStore(folder);
  const [group] = store.groups.list(false);
  const [page] = store.agreed.ofGroup(group?.id ?? "");
  expect(page).toMatchObject({
    said: [{ line: "cued", answer: "yes", who: "Mother" }],
    reviewOn: "2026-06-01",
    language: "es",
    cardStopped: false,
  });
  const studentId = page?.studentId ?? "";
  const [version] = store.homeCards.versions(studentId);
  expect(version?.card).toMatchObject({ goals: ["Start at once"], periods: ["Reading", "Sums"] });
  expect(store.homeCards.days(studentId, "2026-03-01", "2026-03-31")).toMatchObject([
    { cardId: version?.id, ratings: [4, null], wentWell: "Began at once" },
  ]);
  const [contract] = store.contracts.ofStudent(studentId);
  expect(contract).toMatchObject({ terms: { cost: 1 }, signedOn: "2026-03-02", endedOn: null });
  expect(store.contracts.closedDays(contract?.id ?? "")).toMatchObject([{ day: "2026-03-02" }]);
  expect(listBackups(folder)).toHaveLength(newestVersion === 8 ? 0 : 1);
});

test.each([
  ["UPDATE agreed_answer SET answer = 'no'", /never changed/],
  ["DELETE FROM agreed_answer", /only by an erasure/],
  ["UPDATE home_card SET from_day = '2026-01-01'", /never changed/],
  ["DELETE FROM home_card", /only by an erasure/],
  ["UPDATE home_card_day SET ratings = '[0]'", /never changed/],
  ["DELETE FROM home_card_day", /only by an erasure/],
  ["UPDATE contract SET terms = '{}'", /never changed/],
  ["UPDATE contract SET review_on = '2026-03-17'", /never changed/],
  ["DELETE FROM contract", /only by an erasure/],
  ["DELETE FROM contract_day", /only by an erasure/],
  [
    "INSERT INTO contract_day SELECT 'x' || substr(id, 2), contract_id, student_id, day, 0 FROM contract_day",
    /UNIQUE/,
  ],
  [
    `INSERT INTO contract SELECT 'x' || substr(id, 2), student_id, terms, from_day, '2026-03-24', 0, NULL, NULL FROM contract`,
    /contract_review_soon/,
  ],
  ["UPDATE student_paper SET language = 'fr'", /student_paper_language/],
])("18. what was said and signed is only added to: %s", (sql, message) => {
  const database = new Database(":memory:");
  database.exec(snapshot(8));
  database.pragma("foreign_keys = ON");
  expect(() => database.exec(sql)).toThrow(message);
  // Signing and ending are no change of what it says.
  database.exec("UPDATE contract SET signed_on = '2026-03-03', ended_on = '2026-03-10'");
});

const marchDay = (date: number) => `2026-03-${String(date).padStart(2, "0")}`;

test.each([
  ["drawn 2026-09-07/2026-09-18 kiwi", "", ["2026-09-07", "2026-09-18", "kiwi"]],
  ["Señal · drawn 2026-09-07/2026-09-07 k2", "Señal", ["2026-09-07", "2026-09-07", "k2"]],
  ["A · drawn · drawn 2026-09-07/2026-09-18 x", "A · drawn", ["2026-09-07", "2026-09-18", "x"]],
  ["", "", null],
  ["drawn by hand", "drawn by hand", null],
  ["drawn 2026-02-30/2026-09-18 kiwi", "drawn 2026-02-30/2026-09-18 kiwi", null],
  ["drawn 2026-09-18/2026-09-07 kiwi", "drawn 2026-09-18/2026-09-07 kiwi", null],
  ["drawn 2026-09-07/2026-09-18 ", "drawn 2026-09-07/2026-09-18 ", null],
  ["drawn 2026-09-07/2026-09-18 abcdefghijklm", "drawn 2026-09-07/2026-09-18 abcdefghijklm", null],
  ["withdrawn 2026-09-07/2026-09-18 kiwi", "withdrawn 2026-09-07/2026-09-18 kiwi", null],
])("15. a draw in the label %j of version 2 moves to columns of its own", (label, own, drawn) => {
  const database = new Database(":memory:");
  database.exec(snapshot(2));
  database.prepare("UPDATE phase SET label = ?").run(label);
  migrate(database);
  const [from, to, seed] = drawn ?? [null, null, null];
  expect(
    database.prepare("SELECT label, drawn_from, drawn_to, drawn_seed FROM phase").all(),
  ).toEqual([{ label: own, drawn_from: from, drawn_to: to, drawn_seed: seed }]);
});

/** What a later version of the program might do. */
const later = [...migrations, "CREATE TABLE later (note TEXT NOT NULL) STRICT;"];

test("4. takes a verified backup of the old version before it migrates, and none otherwise", () => {
  const folder = temporaryFolder();
  temporaryStore(folder).close();
  expect(listBackups(folder)).toEqual([]);
  const database = openDatabase(folder, monday, later);
  expect(database.pragma("user_version", { simple: true })).toBe(newestVersion + 1);
  database.close();
  const [backup, ...more] = listBackups(folder);
  if (backup === undefined) throw new Error("No backup was taken");
  expect(more).toEqual([]);
  expect(backup.kind).toBe("before-migration");
  verifyBackup(backup.path);
  const old = new Database(backup.path, { readonly: true });
  expect(old.pragma("user_version", { simple: true })).toBe(newestVersion);
  old.close();
  openDatabase(folder, monday, later).close();
  expect(listBackups(folder)).toHaveLength(1);
});

test("5. does not migrate when the backup before it cannot be taken", () => {
  const folder = temporaryFolder();
  temporaryStore(folder).close();
  writeFileSync(join(folder, "backups"), "a file where the folder should be");
  expect(() => openDatabase(folder, monday, later)).toThrow(StoreError);
  const database = new Database(join(folder, databaseName), { readonly: true });
  expect(database.pragma("user_version", { simple: true })).toBe(newestVersion);
  database.close();
});

test("6. a migration that fails at the second of its statements leaves the data as it was", () => {
  const folder = temporaryFolder();
  const store = temporaryStore(folder);
  const { groupId } = makeClass(store);
  store.close();
  const bad = [...migrations, "DROP TABLE phase; INSERT INTO nowhere VALUES (1);"];
  expect(() => openDatabase(folder, monday, bad)).toThrow(StoreError);
  const again = temporaryStore(folder);
  expect(again.phases.list(groupId)).toEqual([]);
  expect(again.groups.get(groupId)?.studentCount).toBe(2);
});

test("7. leaves the version as it was when a migration fails in the middle", () => {
  const database = new Database(":memory:");
  database.exec("CREATE TABLE session_event (in_the_way TEXT)");
  const before = shapeOf(database);
  expect(() => migrate(database)).toThrow(/already exists/);
  expect(database.pragma("user_version", { simple: true })).toBe(0);
  expect(shapeOf(database)).toEqual(before);
});

interface ColumnInfo {
  readonly name: string;
  readonly type: string;
  readonly notnull: number;
  readonly pk: number;
}
const typed: SQLiteTable[] = [...Object.values(tables), ...Object.values(teamTables)];

test("8. what the typed queries believe of each table is what the migrated database has", () => {
  const database = fresh();
  for (const table of typed) {
    const { name, columns, primaryKeys } = getTableConfig(table);
    const keys = new Set(primaryKeys.flatMap((key) => key.columns.map((column) => column.name)));
    const believed = columns.map((column) => ({
      name: column.name,
      type: column.getSQLType().toUpperCase(),
      required: column.notNull,
      key: column.primary || keys.has(column.name),
    }));
    const actual = database
      .prepare<[string], ColumnInfo>("SELECT * FROM pragma_table_info(?)")
      .all(name)
      .map((column) => ({
        name: column.name,
        type: column.type,
        required: column.notnull === 1,
        key: column.pk > 0,
      }));
    expect(believed, name).toEqual(actual);
  }
});

test("9. every table is STRICT and known to the typed queries", () => {
  const listed = fresh()
    .prepare<[], { name: string; strict: number }>(
      "SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite%'",
    )
    .all();
  expect(listed.filter(({ strict }) => strict !== 1)).toEqual([]);
  const names = typed.map((table) => getTableConfig(table).name);
  expect(listed.map(({ name }) => name).sort()).toEqual(names.sort());
});

test("10. the log refuses to be changed, and to lose events outside an erasure", () => {
  const database = new Database(":memory:");
  database.exec(snapshot(1));
  expect(() => database.exec("UPDATE session_event SET cue = 2 WHERE kind = 'mark'")).toThrow(
    /never changed/,
  );
  expect(() => database.exec("DELETE FROM session_event")).toThrow(/only by an erasure/);
});

test.each([
  ["a day that is none", "UPDATE session SET day = '2026-02-30'"],
  ["a text where a number belongs", "UPDATE student SET position = 'first'"],
  ["a plan that is no JSON", "UPDATE plan SET settings = 'weekly'"],
  ["a kind of session that does not exist", "UPDATE session SET kind = 'party'"],
  ["an empty name", "UPDATE student SET name = ''"],
  ["a missing name", "UPDATE student SET name = NULL"],
  ["a group that is not there", "UPDATE student SET group_id = '00000000'"],
  ["a group that still has students", "DELETE FROM student_group"],
  ["a day off that ends before it starts", "UPDATE day_off SET last_day = '2026-04-02'"],
  ["a goal above one", "UPDATE program SET goal = 1.1"],
  ["an import that is not there", "UPDATE session SET import_id = '00000000'"],
  ["a draw without its seed", "UPDATE phase SET drawn_seed = NULL"],
  ["a draw whose last day comes first", "UPDATE phase SET drawn_to = '2026-03-08'"],
  ["a seed that nobody could type again", "UPDATE phase SET drawn_seed = 'Kiwi 2'"],
  ["an import that still has sessions", "DELETE FROM record_import"],
])("11. the database itself refuses %s", (_what, sql) => {
  const database = new Database(":memory:");
  database.exec(snapshot(3));
  database.pragma("foreign_keys = ON");
  expect(() => database.exec(sql)).toThrow(/constraint failed|cannot store/);
});

test("12. finds the events of a session in the order of the log without sorting", () => {
  const plan = fresh()
    .prepare<[], { detail: string }>(
      "EXPLAIN QUERY PLAN SELECT cue FROM session_event WHERE session_number = 1 AND kind = 'mark' ORDER BY seq",
    )
    .all();
  expect(plan.map(({ detail }) => detail)).toEqual([
    "SEARCH session_event USING PRIMARY KEY (session_number=?)",
  ]);
});
