import { z } from "zod";
import { adviceDecisions } from "../advice/advice.ts";
import { conditions } from "../phase/alternation.ts";
import { drawSchema } from "../phase/draw.ts";
import { phaseKinds } from "../phase/phase.ts";
import { probesSchema } from "../phase/probes.ts";
import { periodSchema, privilegeSchema } from "../roster/privilege.ts";
import { markValues, seenValues, sessionKinds } from "../session/event.ts";
import { groupTogetherSchema } from "../teams/kept.ts";
import { homePapersSchema } from "./home-papers.ts";
import { ledgerLineSchema } from "./ledger-line.ts";
import { recordSources } from "./record-source.ts";

/** "check-honesty" is what older files say for "check-match". */
const adviceKinds = ["check-honesty", ...adviceDecisions] as const;
const day = z.iso.date();
const id = z.uuidv7();
const count = z.int().min(0);

/**
 * A group's whole record as one JSON file, for a spreadsheet, a statistics program or another computer.
 * It stands on its own: ids only tie its parts together. A later version will say so in `version`.
 */
export const groupRecordSchema = z.strictObject({
  form: z.literal("pebblechime-group-record"),
  version: z.literal(6),
  /** When the file was written: ISO 8601 in UTC. */
  exportedAt: z.iso.datetime(),
  group: z.strictObject({
    name: z.string(),
    /** What counts as working, in words a child can repeat. */
    target: z.string(),
    /** True for the invented class. */
    isSample: z.boolean(),
  }),
  students: z.array(
    z.strictObject({ id, name: z.string(), target: z.string(), archived: z.boolean() }),
  ),
  /** Ended sessions, oldest first; neither practice nor what was left out is among them. */
  sessions: z.array(
    z.strictObject({
      id,
      kind: z.enum(sessionKinds),
      /** ISO 8601 with the school's own offset. */
      startedAt: z.iso.datetime({ offset: true }),
      /** School-local day. */
      day,
      /** Mean interval between cues under the session's plan. */
      meanSeconds: z.number(),
      /** What was worked on; empty when nobody said. */
      subject: z.string(),
      /** Where students had cues of their own, those of all of them together. */
      cuesDelivered: count,
      note: z.string(),
    }),
  ),
  /** Sessions that the teacher left out of every number, and why: nothing else here is of them. */
  leftOut: z.array(
    z.strictObject({
      id,
      kind: z.enum(sessionKinds),
      startedAt: z.iso.datetime({ offset: true }),
      day,
      reason: z.string(),
    }),
  ),
  /** One for each student, session and source of which anything is known. */
  counts: z.array(
    z.strictObject({
      studentId: id,
      sessionId: id,
      source: z.enum(recordSources),
      onTask: count,
      offTask: count,
      /** Delivered cues without a mark; for an observer, cues at which the student could not be seen. */
      noMark: count,
    }),
  ),
  /** What the teacher saw at a cue, beside what the student recorded for it. */
  spotChecks: z.array(
    z.strictObject({
      studentId: id,
      sessionId: id,
      cue: count,
      student: z.enum(markValues),
      seen: z.enum(seenValues),
      /** Answered after the next cue had come, from memory; absent when it was not. */
      late: z.literal(true).optional(),
    }),
  ),
  /** Two observers' words on the same student and cue. */
  observerPairs: z.array(
    z.strictObject({
      studentId: id,
      sessionId: id,
      cue: count,
      first: z.enum(seenValues),
      second: z.enum(seenValues),
    }),
  ),
  work: z.array(
    z.strictObject({
      studentId: id,
      sessionId: id,
      assigned: count,
      completed: count,
      correct: count.nullable(),
    }),
  ),
  /** A phase lasts until the next one starts; `studentId` is null when it is the whole group's. */
  phases: z.array(
    z.strictObject({
      studentId: id.nullable(),
      kind: z.enum(phaseKinds),
      label: z.string(),
      startsOn: day,
      /** The span, the days in it that could be drawn, the seed, and how often it was drawn; null when the first day was chosen. */
      draw: drawSchema.nullable(),
      /** The days drawn for probes of a maintenance phase, until when, and by which seed. */
      probes: probesSchema.nullable(),
    }),
  ),
  /** Two conditions that take turns by session. What is still to come stays sealed: no order, no seed. */
  alternations: z.array(
    z.strictObject({
      nameA: z.string(),
      nameB: z.string(),
      /** The number of sessions that were planned. */
      planned: count,
      /** How often an order was drawn until this one was kept. */
      times: z.int().min(1),
      /** What the order was drawn from; null until the last session is held. */
      seed: z.string().nullable(),
      /** The sessions held, in the order of their turns. */
      held: z.array(z.strictObject({ sessionId: id, condition: z.enum(conditions) })),
    }),
  ),
  /** Where the group's program stands. */
  program: z.strictObject({
    /** On-task rate to hold, 0 to 1. */
    goal: z.number().min(0).max(1),
    /** Means of the ladder's cue steps in seconds, densest first; steps without cues follow them. */
    stepMeansSeconds: z.array(z.number()),
    /** Place on the ladder, 0 for the densest cues, and the school-local day since when. */
    place: count,
    placeSince: day,
    pointsPaid: z.boolean(),
  }),
  /** What the teacher did with each piece of advice; `studentId` is null when it was about the group. */
  decisions: z.array(
    z.strictObject({
      studentId: id.nullable(),
      advice: z.enum(adviceKinds),
      accepted: z.boolean(),
      note: z.string(),
      /** School-local day. */
      day,
    }),
  ),
  /** Days without school, first and last day included. */
  daysOff: z.array(z.strictObject({ firstDay: day, lastDay: day, label: z.string() })),
  /** The ledger of points of all students, in the order in which it was written; archived ones too. */
  ledger: z.array(ledgerLineSchema),
  /** What points buy, in the order of the list; students whom it is not offered by their ids. */
  privileges: z.array(privilegeSchema.omit({ id: true, groupId: true })),
  /** Named stretches of the school day, and which of them end with an exchange. */
  periods: z.array(periodSchema.omit({ id: true })),
  /** Teams over a term, and lessons in pairs. */
  together: groupTogetherSchema,
  /** One for each student of whom anything was agreed, rated on a home card, or written in a contract. */
  papers: z.array(homePapersSchema),
});
export type GroupRecord = z.infer<typeof groupRecordSchema>;
