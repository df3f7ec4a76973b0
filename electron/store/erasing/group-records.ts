import type Database from "better-sqlite3";
import { z } from "zod";
import { readableJson } from "../file/stored-json.ts";
import { hasTable } from "./has-table.ts";

/** What belongs to a group and not to a student alone, what refers to others first. */
const ofGroups = [
  "seat",
  "privilege",
  "period",
  "team_term",
  "team_name",
  "team_wish",
  "team_round",
  "team_day",
  "pair_lesson",
  "session",
  "phase",
  "alternation",
  "plan",
  "program",
  "advice_decision",
  "practice_example",
  "stay",
] as const;

/**
 * Removes what a group has apart from its students, its imports and its own row. For a database of any
 * released version, within a transaction in which erasure is open.
 */
export function removeGroupRecords(database: Database.Database, groupId: string): void {
  database
    .prepare(
      "DELETE FROM session_event WHERE session_number IN (SELECT number FROM session WHERE group_id = ?)",
    )
    .run(groupId);
  for (const table of ofGroups) {
    if (!hasTable(database, table)) continue;
    database.prepare(`DELETE FROM ${table} WHERE group_id = ?`).run(groupId);
  }
}

const choices = z.union([z.record(z.string(), z.unknown()), z.array(z.unknown())]);

/** Takes a group's id out of the teacher's choices, and what waited for it on Today. */
export function forgetGroupChoices(database: Database.Database, groupId: string): void {
  const rows = database
    .prepare<[string], { name: string; value: string }>(
      "SELECT name, value FROM setting WHERE instr(value, ?) > 0",
    )
    .all(groupId);
  for (const { name, value } of rows) {
    const read = readableJson(choices, value);
    const without = Array.isArray(read)
      ? read.filter((each) => each !== groupId)
      : Object.fromEntries(Object.entries(read ?? {}).filter(([key]) => key !== groupId));
    database
      .prepare("UPDATE setting SET value = ? WHERE name = ?")
      .run(JSON.stringify(without), name);
  }
  if (!hasTable(database, "put_aside")) return;
  database.prepare("DELETE FROM put_aside WHERE instr(what, ?) > 0").run(groupId);
}
