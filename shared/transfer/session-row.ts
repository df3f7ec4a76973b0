import { longestSubject } from "../plan/plan.ts";
import { earliestMs } from "./import-limits.ts";
import { type Moment, parseMoment } from "./moment.ts";
import { type NamedPhase, parsePhase } from "./phase-text.ts";
import { type RecordSource, sourceIn } from "./record-source.ts";
import { readWork, type WorkColumn, type WorkItems } from "./work-fields.ts";

/** The fields of a counted session, whatever a file calls their columns. */
export type SessionField =
  | "student"
  | "startedAt"
  | "phase"
  | "source"
  | "on"
  | "off"
  | "missing"
  | "subject"
  | WorkColumn;

/** What one row says of one student in one session. */
export interface SessionRow {
  readonly student: string;
  readonly moment: Moment;
  /** As it is written; empty for none. */
  readonly phaseText: string;
  readonly phase: NamedPhase | null;
  readonly source: RecordSource;
  readonly on: number;
  readonly off: number;
  readonly missing: number;
  readonly subject: string;
  readonly work: WorkItems | null;
}

/** What is wrong with a row, for whoever has the words; `found` is what stands there. */
export type SessionRowProblem =
  | { readonly kind: "field"; readonly field: SessionField; readonly found: string }
  | { readonly kind: "time-unlikely"; readonly found: string }
  | { readonly kind: "subject-long" }
  | { readonly kind: "correct-over"; readonly correct: number; readonly completed: number };

export interface SessionRowLimits {
  /** Who recorded where the field is empty; null where every row has to say so. */
  readonly source: RecordSource | null;
  /** So many marks of one kind, at most. */
  readonly mostMarks: number;
  /** No session begins at this moment or later, in ms since 1970 UTC. */
  readonly beforeMs: number;
}

/**
 * Reads a counted session from the texts of its fields. Page and command line both read by it and word what
 * is wrong each in their own way.
 *
 * @param text the text of a field, without the guard against spreadsheets; empty where there is none
 * @returns the row, or all that is wrong with it
 */
export function readSessionRow(
  text: (field: SessionField) => string,
  limits: SessionRowLimits,
): SessionRow | SessionRowProblem[] {
  const problems: SessionRowProblem[] = [];
  const bad = (field: SessionField) => problems.push({ kind: "field", field, found: text(field) });
  const student = text("student");
  const moment = parseMoment(text("startedAt"));
  const phaseText = text("phase");
  const phase = phaseText === "" ? null : parsePhase(phaseText);
  const source = text("source") === "" ? limits.source : sourceIn(text("source"));
  const [on, off, missing] = (["on", "off", "missing"] as const).map((field) =>
    countOf(text(field), limits.mostMarks),
  );
  const subject = text("subject");
  const work = readWork({
    assigned: text("assigned"),
    completed: text("completed"),
    correct: text("correct"),
  });
  if (student === "") bad("student");
  if (moment === undefined) bad("startedAt");
  else if (moment.ms < earliestMs || moment.ms >= limits.beforeMs)
    problems.push({ kind: "time-unlikely", found: text("startedAt") });
  if (phase === undefined) bad("phase");
  if (source === undefined || source === null) bad("source");
  if (on === undefined) bad("on");
  if (off === undefined) bad("off");
  if (missing === undefined) bad("missing");
  if (subject.length > longestSubject) problems.push({ kind: "subject-long" });
  if (Array.isArray(work)) {
    for (const problem of work) {
      if (problem.kind === "items") bad(problem.column);
      else problems.push(problem);
    }
  }
  const isRead =
    problems.length === 0 &&
    moment !== undefined &&
    phase !== undefined &&
    source !== undefined &&
    source !== null &&
    on !== undefined &&
    off !== undefined &&
    missing !== undefined &&
    !Array.isArray(work);
  if (!isRead) return problems;
  return { student, moment, phaseText, phase, source, on, off, missing, subject, work };
}

/** A whole number without sign. Undefined for anything else, also for an empty field. */
function countOf(text: string, most: number): number | undefined {
  const count = /^\d{1,6}$/.test(text) ? Number(text) : most + 1;
  return count <= most ? count : undefined;
}
