import { z } from "zod";
import { mostCues } from "../plan/most-cues.ts";

/** What a student recorded for one cue; `none` takes an earlier mark back. */
export const markValues = ["on", "off", "none"] as const;
export type MarkValue = (typeof markValues)[number];

/** What a watching adult saw; `unseen` is no observation. */
export const seenValues = ["on", "off", "unseen"] as const;
export type SeenValue = (typeof seenValues)[number];

/** The way a mark came in; the later ways leave the record's shape alone. */
export const markWays = ["screen", "paper", "seat", "import"] as const;
export type MarkWay = (typeof markWays)[number];

/** Why a planned cue was not delivered; such a cue leaves the denominator. */
export const undeliveredReasons = [
  "skipped",
  "paused",
  "asleep",
  "no-window",
  "no-report",
  "sound-failed",
  "app-closed",
  "session-ended",
  /** Of a student's own device: it slept, or was gone from the room. */
  "seat-asleep",
  "seat-absent",
] as const;
export type UndeliveredReason = (typeof undeliveredReasons)[number];

/** How a cue reached people; `touch` is an adult's, on the desk of a student without a device. */
export const deliveredBy = ["sound", "sight", "touch"] as const;
export type DeliveredBy = (typeof deliveredBy)[number];

export const pauseReasons = ["teacher", "asleep", "clock-changed", "app-closed"] as const;
export const endReasons = ["finished", "teacher", "closed-later"] as const;

/** What an adult gives points for. */
export const givenReasons = [
  "started",
  "kept-going",
  "asked",
  "helped",
  "honest",
  "other",
] as const;
export type GivenReason = (typeof givenReasons)[number];

/** What points are taken for: never for a true record. */
export const takenReasons = ["disturbed", "left-the-task", "other"] as const;
export type TakenReason = (typeof takenReasons)[number];

/** The most points that one press gives, and that one takes. */
export const mostGiven = 5;
export const mostTaken = 2;

const id = z.uuidv7();
/** With own cues the student's own number, as on their printed key: student and number name the cue. */
const cue = z.int().min(1).max(mostCues);
/** Whose own cue it is; absent when it is the class's. */
const whose = id.optional();
const count = z.int().min(0).max(mostCues);
/** Made by the page for one press, so that a press sent twice is one press. */
const press = z.uuid();

/**
 * What can happen in a session. One append-only log holds all of it, from the first cue to a card typed
 * in days later; every number on every screen is a fold over this log.
 */
export const sessionEventBodySchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("begun"),
    /** Each student has cues of their own; absent when one cue is for the whole class. */
    cueing: z.literal("own").optional(),
  }),
  /** This student has own cues and no device: an adult touches the desk, by the printed key. */
  z.strictObject({ kind: z.literal("by-touch"), studentId: id }),
  /** The on-task share that this student works for in this session, where it is not the plan's. */
  z.strictObject({
    kind: z.literal("own-goal"),
    studentId: id,
    share: z.number().min(0.05).max(1),
  }),
  /** Written before any window is told to sound the cue, so that a crash never sounds it twice. */
  z.strictObject({ kind: z.literal("announced"), studentId: whose, cue }),
  z.strictObject({
    kind: z.literal("delivered"),
    studentId: whose,
    cue,
    by: z.enum(deliveredBy),
    /** How long after its planned moment the cue really began, in ms of real time; null when unknown. */
    latenessMs: z.number().nullable(),
    /** Why a cue meant to sound was only shown; null when nothing went wrong. */
    problem: z.string().max(60).nullable(),
  }),
  z.strictObject({
    kind: z.literal("undelivered"),
    /** Whose own cue it was, or whose device did not show one that reached the class; absent when it reached nobody. */
    studentId: whose,
    cue,
    reason: z.enum(undeliveredReasons),
    /** What the window said of a cue that failed there; absent when nothing was said. */
    problem: z.string().max(60).optional(),
  }),
  z.strictObject({
    kind: z.literal("mark"),
    studentId: id,
    cue,
    value: z.enum(markValues),
    way: z.enum(markWays),
    late: z.boolean(),
  }),
  /** The student said at the screen that they were not there at this cue; not so, taken back. No mark either way. */
  z.strictObject({ kind: z.literal("said-away"), studentId: id, cue, away: z.boolean() }),
  /** A card entered as totals only; the newest total of a student replaces earlier ones and any marks by paper. */
  z.strictObject({
    kind: z.literal("total"),
    studentId: id,
    on: count,
    off: count,
    way: z.enum(markWays),
  }),
  z.strictObject({ kind: z.literal("set-aside"), studentId: id }),
  z.strictObject({ kind: z.literal("back"), studentId: id }),
  z.strictObject({
    kind: z.literal("spot-check"),
    studentId: id,
    cue: cue.nullable(),
    value: z.enum(seenValues),
    /** Answered after the next cue had come; absent when it was not. */
    late: z.literal(true).optional(),
  }),
  z.strictObject({
    kind: z.literal("observed"),
    studentId: id,
    cue,
    value: z.enum(seenValues),
    observer: z.union([z.literal(1), z.literal(2)]),
  }),
  z.strictObject({
    kind: z.literal("work"),
    studentId: id,
    assigned: count,
    completed: count,
    correct: count.nullable(),
  }),
  z.strictObject({
    kind: z.literal("given"),
    studentId: id,
    amount: z.int().min(1).max(mostGiven),
    why: z.enum(givenReasons),
    press,
  }),
  z.strictObject({
    kind: z.literal("taken"),
    studentId: id,
    amount: z.int().min(1).max(mostTaken),
    why: z.enum(takenReasons),
    press,
  }),
  /** Takes a press back: `givenSeq`, `takenSeq` are its number in this log. */
  z.strictObject({ kind: z.literal("ungiven"), studentId: id, givenSeq: z.int().min(1) }),
  z.strictObject({ kind: z.literal("untaken"), studentId: id, takenSeq: z.int().min(1) }),
  /** Nothing more is taken from this student today. */
  z.strictObject({ kind: z.literal("points-stopped"), studentId: id }),
  /** The on-task marks of a card counted at a glance: worth points, and in no rate, for no minus is known. */
  z.strictObject({ kind: z.literal("pluses"), studentId: id, on: count }),
  z.strictObject({ kind: z.literal("interruption"), note: z.string().max(200) }),
  z.strictObject({ kind: z.literal("note"), text: z.string().max(1_000) }),
  /** The entry of that number was found damaged and is not read; the rest of the session stands. */
  z.strictObject({ kind: z.literal("passed-over"), seq: z.int().min(1) }),
  z.strictObject({ kind: z.literal("paused"), reason: z.enum(pauseReasons) }),
  z.strictObject({ kind: z.literal("resumed") }),
  z.strictObject({ kind: z.literal("ended"), reason: z.enum(endReasons) }),
  /** A trial, or a lesson that went wrong: the session stays, and leaves every number. */
  z.strictObject({
    kind: z.literal("left-out"),
    reason: z.string().min(1).max(200),
    /** A trial pays no points either; what else is left out keeps what it paid. Absent when it was none. */
    trial: z.literal(true).optional(),
  }),
  z.strictObject({ kind: z.literal("taken-in") }),
]);
export type SessionEventBody = z.infer<typeof sessionEventBodySchema>;

/** Every kind of event. */
export const sessionEventKinds: readonly string[] = sessionEventBodySchema.options.map(
  ({ shape }) => shape.kind.value,
);

/** When and in which order an event happened. */
export const eventStampSchema = z.strictObject({
  /** 1, 2, 3 ... within the session; gaps appear only where a student was erased. */
  seq: z.int().min(1),
  /** Session time in ms: time spent running, without pauses and sleep. */
  atMs: z.number().min(0),
  /** Wall clock, ms since 1970 UTC. */
  wallMs: z.number(),
  /** Minutes that local time was ahead of UTC. */
  offsetMinutes: z.int(),
});
export type EventStamp = z.infer<typeof eventStampSchema>;

export const sessionEventSchema = z.strictObject({
  stamp: eventStampSchema,
  body: sessionEventBodySchema,
});
export type SessionEvent = z.infer<typeof sessionEventSchema>;

/** Something that happened at a moment of a session, in ms of session time. */
export interface TimedBody {
  readonly atMs: number;
  readonly body: SessionEventBody;
}

/**
 * `seatwork` is students recording themselves; `baseline` and `probe` are the teacher observing
 * without cueing the class; `practice` trains the class and is never counted.
 */
export const sessionKinds = ["seatwork", "baseline", "probe", "practice"] as const;
export type SessionKind = (typeof sessionKinds)[number];
