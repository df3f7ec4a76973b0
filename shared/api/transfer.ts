import { z } from "zod";
import { dayOffSchema } from "../calendar/timetable.ts";
import { phaseSchema } from "../phase/phase.ts";
import { mostCues } from "../plan/most-cues.ts";
import { planSettingsSchema } from "../plan/plan.ts";
import { ownGoalSchema } from "../roster/own-goal.ts";
import { programSchema } from "../roster/program.ts";
import { groupSchema, idSchema, studentSchema } from "../roster/roster.ts";
import { sessionEventSchema } from "../session/event.ts";
import { studentTogetherSchema } from "../teams/kept.ts";
import { homePapersSchema } from "../transfer/home-papers.ts";
import { mostRows, mostStudents } from "../transfer/import-limits.ts";
import { ledgerLineSchema } from "../transfer/ledger-line.ts";
import { recordSources } from "../transfer/record-source.ts";
import { adviceDecisionSchema } from "./advice.ts";
import { procedure } from "./errors.ts";
import { planSchema } from "./plans.ts";
import { workSchema } from "./records.ts";
import { sessionSchema } from "./sessions.ts";

const count = z.int().min(0).max(mostCues);

/** One past session of one student, as a CSV file of earlier records has it. */
export const importRowSchema = z.strictObject({
  student: z.string().trim().min(1).max(60),
  /** ISO 8601 with offset, such as 2026-03-02T09:15:00+01:00. */
  startedAt: z.iso.datetime({ offset: true }),
  source: z.enum(recordSources),
  on: count,
  off: count,
  missing: count,
  /** The phase, as `parsePhase` reads it; empty for none. */
  phase: z.string().trim().max(80),
  /** What was worked on; empty when nobody said. */
  subject: planSettingsSchema.shape.subject,
  /** What the student got done; null when nobody noted it. */
  work: workSchema.omit({ studentId: true }).nullable(),
});
export type ImportRow = z.infer<typeof importRowSchema>;

/** One student, as a CSV file of a class has them. */
export const rosterRowSchema = studentSchema.pick({ name: true, picture: true, target: true });
export type RosterRow = z.infer<typeof rosterRowSchema>;

/** One import that can still be taken back. */
export const importedSchema = z.strictObject({
  importId: idSchema,
  importedMs: z.number(),
  sessions: z.int(),
  studentsAdded: z.int(),
  phasesAdded: z.int(),
});
export type Imported = z.infer<typeof importedSchema>;

/** Everything kept about one student, for a records request. */
export const studentRecordSchema = z.strictObject({
  form: z.literal("pebblechime-student-record"),
  version: z.literal(5),
  exportedMs: z.number(),
  student: studentSchema,
  group: groupSchema,
  /** The student's own; where there are any, the student is read by these alone. */
  phases: z.array(phaseSchema),
  /** Those of the whole group, by which a student with none is read. */
  groupPhases: z.array(phaseSchema),
  /** The goal that the student is held to, the ladder of cues and the place on it. */
  program: programSchema,
  /** The group's plans in use; each session has the plan it was held under. */
  plans: z.array(planSchema),
  /** About the student, and about the whole group. */
  decisions: z.array(adviceDecisionSchema),
  /** On which no session was expected. */
  daysOff: z.array(dayOffSchema),
  /** With the student's own events and those of the whole session; no other student's. */
  sessions: z.array(
    z.strictObject({ session: sessionSchema, events: z.array(sessionEventSchema) }),
  ),
  /** The student's points: every entry, in the order in which they were written. */
  ledger: z.array(ledgerLineSchema),
  /** The student's own goal for points, an on-task share, and what the student saves for; null for none. */
  ownGoal: ownGoalSchema.shape.share.nullable(),
  savingFor: z.string().nullable(),
  /** The student's own teams, wishes and lessons in pairs; nobody else is named. */
  together: studentTogetherSchema,
  /** What was agreed, home cards and contracts; whether a card was stopped stays at school. */
  papers: homePapersSchema,
});
export type StudentRecord = z.infer<typeof studentRecordSchema>;

export const transfer = {
  /** All of it or nothing; students and phases that are not in the group yet are added. */
  importSessions: procedure
    .input(
      z.strictObject({ groupId: idSchema, rows: z.array(importRowSchema).min(1).max(mostRows) }),
    )
    .output(importedSchema.omit({ importedMs: true })),
  /** All of them or none; a name that somebody in the group has already is refused. */
  importStudents: procedure
    .input(
      z.strictObject({
        groupId: idSchema,
        rows: z.array(rosterRowSchema).min(1).max(mostStudents),
      }),
    )
    .output(importedSchema.omit({ importedMs: true })),
  /** What was brought into a group and not taken back, newest first. */
  imports: procedure.input(z.strictObject({ groupId: idSchema })).output(z.array(importedSchema)),
  /** Takes one import back, with the students it added as long as nothing else was recorded for them. */
  undoImport: procedure.input(z.strictObject({ importId: idSchema })).output(
    z.strictObject({
      sessionsRemoved: z.int(),
      studentsRemoved: z.int(),
      phasesRemoved: z.int(),
    }),
  ),
  /**
   * Some sessions at a time, oldest first, so that years of them fit into messages: ask from 0, then from
   * `next` until that is null.
   */
  studentRecord: procedure
    .input(z.strictObject({ studentId: idSchema, from: z.int().min(0) }))
    .output(z.strictObject({ record: studentRecordSchema, next: z.int().nullable() })),
  /** Renders a session's cues as one sound file in the data folder, for any player. */
  recordCues: procedure
    .input(
      z.strictObject({
        planId: idSchema,
        seed: z.string().trim().min(1).max(80),
        form: z.enum(["wav", "flac"]),
        /** Whose own cues; left out for the group's. */
        studentId: idSchema.optional(),
      }),
    )
    .output(
      z.strictObject({
        path: z.string(),
        seconds: z.number(),
        bytes: z.int(),
        /** The random stream the cues were drawn from, as a cue key prints it. */
        streamName: z.string(),
      }),
    ),
};
