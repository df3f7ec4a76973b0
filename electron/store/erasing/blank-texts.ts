import type Database from "better-sqlite3";
import { z } from "zod";
import { readableJson } from "../file/stored-json.ts";
import { hasTable } from "./has-table.ts";
import { withoutName } from "./without-name.ts";

/** The teacher's own words about a group or a student of it. */
interface OwnWords {
  readonly table: string;
  readonly column: string;
  /** Whose row it is: the group's when left out, one of its students', or it is the group itself. */
  readonly of?: "student" | "itself";
  /** The column that names the student. */
  readonly key?: "id" | "student_id";
  /** Of a column of JSON the fields that are free words; the others are the app's own. */
  readonly fields?: readonly string[];
}

/** Wherever words are kept; those of the whole school, such as a day off's name, are about no student. */
const ownWords: readonly OwnWords[] = [
  { table: "student_group", column: "name", of: "itself" },
  { table: "student_group", column: "target", of: "itself" },
  { table: "student", column: "target", of: "student", key: "id" },
  { table: "plan", column: "name" },
  { table: "plan", column: "settings", fields: ["subject"] },
  { table: "session", column: "plan_name" },
  { table: "session", column: "plan", fields: ["subject"] },
  { table: "phase", column: "label" },
  { table: "advice_decision", column: "note" },
  { table: "practice_example", column: "words" },
  { table: "privilege", column: "name" },
  { table: "class_timer", column: "name" },
  { table: "period", column: "name" },
  { table: "alternation", column: "name_a" },
  { table: "alternation", column: "name_b" },
  { table: "team_name", column: "name" },
  { table: "agreed_answer", column: "who", of: "student" },
  { table: "family_words", column: "words", of: "student" },
  { table: "home_card", column: "card", of: "student", fields: ["goals", "periods"] },
  { table: "home_card_day", column: "homework", of: "student" },
  { table: "home_card_day", column: "went_well", of: "student" },
  { table: "home_card_day", column: "tomorrow", of: "student" },
  { table: "contract", column: "terms", of: "student", fields: ["earns", "checkedBy"] },
];

type Blank = (text: string) => string;

/**
 * Blanks a student's names in all that was written about a group and its students, those who have left it
 * since among them. For a database of any released version, with its erasure open.
 */
export function blankTexts(
  database: Database.Database,
  groupId: string,
  names: ReadonlySet<string>,
): void {
  const blank: Blank = (text) => [...names].reduce(withoutName, text);
  blankNotes(database, groupId, blank);
  for (const words of ownWords) {
    if (hasTable(database, words.table)) blankColumn(database, groupId, words, blank);
  }
}

function blankColumn(
  database: Database.Database,
  groupId: string,
  words: OwnWords,
  blank: Blank,
): void {
  const { table, column, fields } = words;
  const isOurs = rowsOf(database, words);
  const texts = database
    .prepare<[{ groupId: string }], string>(
      `SELECT DISTINCT ${column} FROM ${table} WHERE ${isOurs}`,
    )
    .pluck()
    .all({ groupId });
  const write = database.prepare(
    `UPDATE ${table} SET ${column} = @without WHERE ${isOurs} AND ${column} = @text`,
  );
  for (const text of texts) {
    const without = fields === undefined ? blank(text) : blankFields(text, fields, blank);
    if (without !== text) write.run({ groupId, text, without });
  }
}

/** Which rows of a table are about a group. */
function rowsOf(database: Database.Database, { of, key = "student_id" }: OwnWords): string {
  if (of === undefined) return "group_id = @groupId";
  if (of === "itself") return "id = @groupId";
  const wasThere = hasTable(database, "stay")
    ? "OR number IN (SELECT student_number FROM stay WHERE group_id = @groupId)"
    : "";
  return `${key} IN (SELECT id FROM student WHERE group_id = @groupId ${wasThere})`;
}

interface NoteRow {
  readonly session_number: number;
  readonly seq: number;
  readonly detail: string;
}

/** Events are never changed in place, so a note is taken out and put back without the name. */
function blankNotes(database: Database.Database, groupId: string, blank: Blank): void {
  const notes = database
    .prepare<[string], NoteRow>(
      `SELECT session_number, seq, detail FROM session_event
       WHERE kind IN ('note', 'interruption', 'left-out') AND session_number IN
         (SELECT number FROM session WHERE group_id = ?)`,
    )
    .all(groupId);
  for (const { session_number: number, seq, detail } of notes) {
    const without = blankFields(detail, ["text", "note", "reason"], blank);
    if (without !== detail) replaceDetail(database, number, seq, without);
  }
}

function blankFields(json: string, fields: readonly string[], blank: Blank): string {
  const said = readableJson(z.record(z.string(), z.unknown()), json);
  // What is damaged may hold the name in a way that nobody finds, so nothing of it stays.
  if (said === undefined) return "{}";
  const blanked = (value: unknown): unknown => {
    if (typeof value === "string") return blank(value);
    return Array.isArray(value) ? value.map(blanked) : value;
  };
  return JSON.stringify(said, (key, value: unknown) =>
    fields.includes(key) ? blanked(value) : value,
  );
}

function replaceDetail(
  database: Database.Database,
  number: number,
  seq: number,
  detail: string,
): void {
  const event = database
    .prepare<[number, number], Record<string, unknown>>(
      "SELECT * FROM session_event WHERE session_number = ? AND seq = ?",
    )
    .get(number, seq);
  if (event === undefined) return;
  database
    .prepare("DELETE FROM session_event WHERE session_number = ? AND seq = ?")
    .run(number, seq);
  const names = Object.keys(event);
  database
    .prepare(
      `INSERT INTO session_event (${names.join(", ")}) VALUES (${names.map((each) => `@${each}`).join(", ")})`,
    )
    .run({ ...event, detail });
}
