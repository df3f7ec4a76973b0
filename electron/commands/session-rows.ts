import { type PhaseKind, phaseKinds } from "../../shared/phase/phase.ts";
import { mostCues } from "../../shared/plan/most-cues.ts";
import { longestSubject } from "../../shared/plan/plan.ts";
import type { SessionCount } from "../../shared/record/session-count.ts";
import { nameKey } from "../../shared/roster/name-key.ts";
import { earliestMs, latestMs } from "../../shared/transfer/import-limits.ts";
import { moreSessionColumns, sessionColumns } from "../../shared/transfer/session-columns.ts";
import {
  readSessionRow,
  type SessionField,
  type SessionRowProblem,
} from "../../shared/transfer/session-row.ts";
import { mostItems, type WorkItems } from "../../shared/transfer/work-fields.ts";
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
 * @throws CommandError that lists every bad row, or says that there are none.
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

/** The column that holds a field. */
const columnOf = {
  student: "student",
  startedAt: "started_at",
  phase: "phase",
  source: "source",
  on: "on_task",
  off: "off_task",
  missing: "no_mark",
  subject: "subject",
  assigned: "assigned",
  completed: "completed",
  correct: "correct",
} as const satisfies Record<SessionField, keyof SessionFields>;

/** The session, or all that is wrong with the row. */
function readRow(fields: SessionFields, line: number): PhasedSession | string[] {
  const read = readSessionRow((field) => fields[columnOf[field]], {
    source: null,
    mostMarks: mostCues,
    beforeMs: latestMs,
  });
  if (Array.isArray(read)) return read.map(wordProblem);
  const { moment, phase, subject, phaseText, ...facts } = read;
  return {
    ...facts,
    phase: phaseText.toLowerCase(),
    phaseKind: phase?.kind ?? null,
    sessionId: String(line),
    startedAt: moment.ms,
    day: moment.day,
    minuteOfDay: moment.minuteOfDay,
    ...(subject === "" ? {} : { subject }),
  };
}

const yearOf = (ms: number): number => new Date(ms).getUTCFullYear();

/** What a field has to be. */
const wanted: Readonly<Record<SessionField, string>> = {
  student: "",
  startedAt: "write the date, time and offset as in 2026-03-02T09:15:00+01:00.",
  phase: `begin it with ${phaseKinds.join(", ")}, or leave it empty for no phase.`,
  source: "write self or observer.",
  on: `write a whole number from 0 to ${mostCues}.`,
  off: `write a whole number from 0 to ${mostCues}.`,
  missing: `write a whole number from 0 to ${mostCues}.`,
  subject: "",
  assigned: `write a whole number from 0 to ${mostItems}, or leave all three work fields empty.`,
  completed: `write a whole number from 0 to ${mostItems}, or leave all three work fields empty.`,
  correct: `write a whole number from 0 to ${mostItems}, or leave all three work fields empty.`,
};

function wordProblem(problem: SessionRowProblem): string {
  switch (problem.kind) {
    case "correct-over":
      return `correct is ${problem.correct} of only ${problem.completed} completed; correct one of the two.`;
    case "subject-long":
      return `subject has more than ${longestSubject} letters.`;
    case "time-unlikely":
      return `started_at is "${problem.found}"; the year must be from ${yearOf(earliestMs)} to ${yearOf(latestMs) - 1}.`;
    default: {
      const { field, found } = problem;
      if (field === "student") return "no student.";
      return `${columnOf[field]} is "${found}"; ${wanted[field]}`;
    }
  }
}
