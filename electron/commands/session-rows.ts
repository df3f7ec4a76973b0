import { type PhaseKind, phaseKinds } from "../../shared/phase/phase.ts";
import { mostCues } from "../../shared/plan/most-cues.ts";
import { longestSubject } from "../../shared/plan/plan.ts";
import type { SessionCount } from "../../shared/record/session-count.ts";
import { nameKey } from "../../shared/roster/name-key.ts";
import { earliestMs, latestMs } from "../../shared/transfer/import-limits.ts";
import { parseMoment } from "../../shared/transfer/moment.ts";
import { parsePhase } from "../../shared/transfer/phase-text.ts";
import { sourceIn } from "../../shared/transfer/record-source.ts";
import { moreSessionColumns, sessionColumns } from "../../shared/transfer/session-columns.ts";
import {
  mostItems,
  readWork,
  type WorkItems,
  type WorkProblem,
} from "../../shared/transfer/work-fields.ts";
import { CommandError } from "./command.ts";
import { type BadRow, type CsvRow, readCsv, refuseBadRows } from "./csv-table.ts";

type SessionFields = CsvRow<
  (typeof sessionColumns)[number] | (typeof moreSessionColumns)[number]
>["fields"];

/** A counted session with the phase it was held under. */
export type PhasedSession = SessionCount & {
  readonly student: string;
  /** The field in small letters, such as `fading 2`; its first word is the kind. Empty for no phase. */
  readonly phase: string;
  /** Null for no phase. */
  readonly phaseKind: PhaseKind | null;
  readonly work: WorkItems | null;
};

/**
 * Reads counted sessions, oldest first within the file's students. A session's id is its line.
 *
 * Errors: CommandError that lists every bad row, or says that there are none.
 */
export function readSessions(text: string): PhasedSession[] {
  const { rows, bad } = readCsv(text, sessionColumns, moreSessionColumns);
  const problems: BadRow[] = [...bad];
  const lineOf = new Map<string, number>();
  const sessions: PhasedSession[] = [];
  // Spelt as the file spells each student first: "Ana" and "ana" are one, as in the app.
  const spelling = new Map<string, string>();
  for (const { line, fields } of rows) {
    const read = readRow(fields, line);
    if (Array.isArray(read)) {
      problems.push(...read.map((problem) => ({ line, problem })));
      continue;
    }
    const nameOf = nameKey(read.student);
    const student = spelling.get(nameOf) ?? read.student;
    spelling.set(nameOf, student);
    const key = JSON.stringify([nameOf, read.startedAt, read.source]);
    const earlier = lineOf.get(key);
    if (earlier === undefined) lineOf.set(key, line);
    else problems.push({ line, problem: `the same student, time and source as line ${earlier}.` });
    sessions.push({ ...read, student });
  }
  refuseBadRows(problems);
  if (sessions.length === 0)
    throw new CommandError("There are no sessions: the file has a header and no rows under it.");
  return sessions.sort((one, other) => one.startedAt - other.startedAt);
}

/** The session, or all that is wrong with the row. */
function readRow(fields: SessionFields, line: number): PhasedSession | string[] {
  const problems: string[] = [];
  const moment = parseMoment(fields.started_at);
  const phaseKind = fields.phase === "" ? null : parsePhase(fields.phase)?.kind;
  const source = sourceIn(fields.source);
  const [on, off, missing] = [fields.on_task, fields.off_task, fields.no_mark].map(countOf);
  const badCount = (column: "on_task" | "off_task" | "no_mark") =>
    `${column} is "${fields[column]}"; write a whole number from 0 to ${mostCues}.`;

  if (fields.student === "") problems.push("no student.");
  if (moment === undefined)
    problems.push(
      `started_at is "${fields.started_at}"; write the date, time and offset as in 2026-03-02T09:15:00+01:00.`,
    );
  else if (moment.ms < earliestMs || moment.ms >= latestMs)
    problems.push(
      `started_at is "${fields.started_at}"; the year must be from ${yearOf(earliestMs)} to ${yearOf(latestMs) - 1}.`,
    );
  if (phaseKind === undefined)
    problems.push(
      `phase is "${fields.phase}"; begin it with ${phaseKinds.join(", ")}, or leave it empty for no phase.`,
    );
  if (source === undefined) problems.push(`source is "${fields.source}"; write self or observer.`);
  if (on === undefined) problems.push(badCount("on_task"));
  if (off === undefined) problems.push(badCount("off_task"));
  if (missing === undefined) problems.push(badCount("no_mark"));
  if (fields.subject.length > longestSubject)
    problems.push(`subject has more than ${longestSubject} letters.`);
  const work = readWork(fields);
  if (Array.isArray(work)) problems.push(...work.map((problem) => wordWork(problem, fields)));
  if (
    problems.length > 0 ||
    Array.isArray(work) ||
    moment === undefined ||
    phaseKind === undefined ||
    source === undefined ||
    on === undefined ||
    off === undefined ||
    missing === undefined
  )
    return problems;

  const { ms: startedAt, day, minuteOfDay } = moment;
  return {
    student: fields.student,
    phase: fields.phase.toLowerCase(),
    phaseKind,
    sessionId: String(line),
    startedAt,
    day,
    minuteOfDay,
    source,
    on,
    off,
    missing,
    work,
    ...(fields.subject === "" ? {} : { subject: fields.subject }),
  };
}

const yearOf = (ms: number): number => new Date(ms).getUTCFullYear();

function wordWork(problem: WorkProblem, fields: SessionFields): string {
  if (problem.kind === "correct-over")
    return `correct is ${problem.correct} of only ${problem.completed} completed; correct one of the two.`;
  const { column } = problem;
  return `${column} is "${fields[column]}"; write a whole number from 0 to ${mostItems}, or leave all three work fields empty.`;
}

function countOf(field: string): number | undefined {
  const count = /^\d{1,6}$/.test(field) ? Number(field) : mostCues + 1;
  return count <= mostCues ? count : undefined;
}
