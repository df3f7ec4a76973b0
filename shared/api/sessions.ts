import { eventIterator } from "@orpc/contract";
import { z } from "zod";
import { planSettingsSchema } from "../plan/plan.ts";
import { idSchema, studentSchema } from "../roster/roster.ts";
import { markValues, seenValues, sessionEventSchema, sessionKinds } from "../session/event.ts";
import { lookIntervals } from "../session/kind-plan.ts";
import { mostObserved } from "../session/observation-rotation.ts";
import { procedure } from "./errors.ts";

/** A session's fixed facts; everything that happens in it is in its events. */
export const sessionSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  groupName: z.string(),
  kind: z.enum(sessionKinds),
  planName: z.string(),
  /** The plan as it was when the session began. */
  plan: planSettingsSchema,
  seed: z.string().min(1).max(80),
  startedMs: z.number(),
  offsetMinutes: z.int(),
  /** School-local calendar day, YYYY-MM-DD. */
  day: z.string(),
});
export type Session = z.infer<typeof sessionSchema>;

export const sessionListItemSchema = sessionSchema.extend({
  status: z.enum(["running", "paused", "interrupted", "ended"]),
  cuesDelivered: z.int(),
  cuesPlanned: z.int(),
  /** Students for whom anything was recorded. */
  studentsRecorded: z.int(),
  studentsPresent: z.int(),
  /** Why it is left out of every number; null while it counts. */
  leftOutBecause: z.string().nullable(),
});
export type SessionListItem = z.infer<typeof sessionListItemSchema>;

export const clockSchema = z.strictObject({
  /** The conductor's monotonic clock now, in ms of session speed. */
  monotonicMs: z.number(),
  speed: z.number().positive(),
  /** Session time now, or null when no session is live. */
  sessionMs: z.number().nullable(),
  running: z.boolean(),
});
export type ConductorClock = z.infer<typeof clockSchema>;

/** What a window can do for a cue at its moment: sound it, show it, or neither. */
export const cueMeans = ["sound", "sight", "none"] as const;
export type CueMeans = (typeof cueMeans)[number];

/**
 * Tells a window who gives the cues, and the one that does of each cue ahead of its moment; `cancelled`
 * takes a cue back.
 */
export const cueCallSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("sounder"),
    yours: z.boolean(),
    /** What the window that gives the cues can do. */
    can: z.enum(cueMeans),
    /** How many windows could give the cues, this one among them. */
    windows: z.int().min(1),
  }),
  z.strictObject({ kind: z.literal("announced"), cue: z.int(), dueMonotonicMs: z.number() }),
  z.strictObject({ kind: z.literal("cancelled"), cue: z.int() }),
]);
export type CueCall = z.infer<typeof cueCallSchema>;

/** Whom a baseline or probe is about, and how often on average a look comes, in seconds. */
const observingSchema = z.strictObject({
  studentIds: z.array(idSchema).min(1).max(mostObserved),
  lookEverySeconds: z.literal(lookIntervals),
});
export type Observing = z.infer<typeof observingSchema>;

const live = z.strictObject({ sessionId: idSchema });
const nothing = z.strictObject({});
/** A window under a name that it makes up and keeps until it is closed or loaded again. */
const cueWindow = live.extend({ window: z.string().min(1).max(40) });
const cueOffer = cueWindow.extend({ can: z.enum(cueMeans) });

export const sessions = {
  /** Starts a session; refused while another one is live, on an impossible plan or an empty group. */
  start: procedure
    .input(
      z
        .strictObject({
          groupId: idSchema,
          planId: idSchema,
          kind: z.enum(sessionKinds),
          /** Leave out for a fresh one. */
          seed: z.string().trim().min(1).max(80).optional(),
          /** Students who are absent from the first moment. */
          absentIds: z.array(idSchema).max(100).optional(),
          /** Under own cues: students without a device, whose desk an adult touches by the printed key. */
          byTouchIds: z.array(idSchema).max(100).optional(),
          /** The group's other students are set aside from the first moment. */
          observing: observingSchema.optional(),
        })
        .refine(
          ({ kind, observing }) =>
            observing === undefined || kind === "baseline" || kind === "probe",
          "Only a baseline or a probe says whom it observes.",
        ),
    )
    .output(sessionSchema),
  /** The live session, or one that an earlier run left open (`interrupted`), or null. */
  open: procedure.output(sessionListItemSchema.nullable()),
  list: procedure
    .input(z.strictObject({ groupId: idSchema.nullable(), limit: z.int().min(1).max(1_000) }))
    .output(z.array(sessionListItemSchema)),
  /** Seatwork recorded on paper cards in the last so many days, today among them; newest first. */
  onPaper: procedure
    .input(z.strictObject({ days: z.int().min(1).max(366) }))
    .output(z.array(sessionListItemSchema)),
  get: procedure.input(live).output(
    z.strictObject({
      session: sessionSchema,
      students: z.array(studentSchema),
      /** Why it is left out of every number; null while it counts. */
      leftOutBecause: z.string().nullable(),
    }),
  ),
  /** All events after `after`, then each new one as it is written. Ends after `ended` once the session can take no more live events. */
  watch: procedure
    .input(live.extend({ after: z.int().min(0) }))
    .output(eventIterator(sessionEventSchema)),
  clock: procedure.output(clockSchema),
  /** Cue calls for a window; the best of the windows that ask gives the cues until it goes. */
  cueCalls: procedure.input(cueOffer).output(eventIterator(cueCallSchema)),
  /** A window that follows the cue calls can now do more or less for a cue. */
  cueMeans: procedure.input(cueOffer).output(nothing),
  /** A window goes, and has taken back what it was told of: another may give it. */
  leaveCues: procedure.input(cueWindow).output(nothing),
  /** A cue has reached people: when it really began, and how. */
  cueDelivered: procedure
    .input(
      live.extend({
        cue: z.int().min(1),
        beganMonotonicMs: z.number(),
        by: z.enum(["sound", "sight"]),
        problem: z.string().max(60).nullable(),
      }),
    )
    .output(nothing),
  /** Neither sound nor sight reached anyone. */
  cueUndelivered: procedure
    .input(live.extend({ cue: z.int().min(1), problem: z.string().max(60) }))
    .output(nothing),
  pause: procedure.input(live).output(nothing),
  /** Resumes a paused session, also one that an earlier run of the app left open. */
  resume: procedure.input(live).output(nothing),
  /** The next planned cue is left out. */
  skipCue: procedure.input(live).output(z.strictObject({ cue: z.int() })),
  interruption: procedure.input(live.extend({ note: z.string().trim().max(200) })).output(nothing),
  end: procedure.input(live).output(nothing),
  /** Written durably before this resolves. `none` takes a mark back within the window. */
  mark: procedure
    .input(live.extend({ studentId: idSchema, cue: z.int().min(1), value: z.enum(markValues) }))
    .output(z.strictObject({ seq: z.int(), late: z.boolean() })),
  /** The student was not there at the cue, or was after all; in the same window as a mark. */
  sayAway: procedure
    .input(live.extend({ studentId: idSchema, cue: z.int().min(1), away: z.boolean() }))
    .output(nothing),
  setAside: procedure
    .input(live.extend({ studentId: idSchema, aside: z.boolean() }))
    .output(nothing),
  spotCheck: procedure
    .input(
      live.extend({
        studentId: idSchema,
        cue: z.int().min(1).nullable(),
        value: z.enum(seenValues),
      }),
    )
    .output(nothing),
  observe: procedure
    .input(
      live.extend({
        studentId: idSchema,
        cue: z.int().min(1),
        value: z.enum(seenValues),
        observer: z.union([z.literal(1), z.literal(2)]),
      }),
    )
    .output(nothing),
  /** Leaves the session out of every number, with the reason; it stays in the records. A trial pays nothing. */
  leaveOut: procedure
    .input(live.extend({ reason: z.string().trim().min(1).max(200), isTrial: z.boolean() }))
    .output(nothing),
  takeIn: procedure.input(live).output(nothing),
  note: procedure.input(live.extend({ text: z.string().trim().max(1_000) })).output(nothing),
};
