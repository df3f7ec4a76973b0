import { z } from "zod";
import { mostCues } from "../plan/most-cues.ts";
import { idSchema, studentSchema } from "../roster/roster.ts";
import { markValues, markWays, seenValues } from "../session/event.ts";
import { mostItems } from "../transfer/work-fields.ts";
import { procedure } from "./errors.ts";
import { sessionSchema } from "./sessions.ts";

/** One student's card: marks box by box (box k belongs to the k-th cue heard), or totals only. */
export const cardSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("boxes"), boxes: z.array(z.enum(markValues)).max(mostCues) }),
  z.strictObject({ kind: z.literal("totals"), on: z.int().min(0), off: z.int().min(0) }),
]);
export type Card = z.infer<typeof cardSchema>;

export const cardRowSchema = z.strictObject({
  student: studentSchema,
  /** The cues that this student's boxes are for: their own, or the class's. */
  cues: z.int(),
  setAside: z.boolean(),
  card: cardSchema,
  /** The boxes that are empty because the student was not there, from 1. */
  awayBoxes: z.array(z.int().min(1)),
  /** Marks and totals replaced by later ones; the history keeps them. */
  corrections: z.int(),
});
export type CardRow = z.infer<typeof cardRowSchema>;

const entrySchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("box"),
    box: z.int(),
    value: z.enum(markValues),
    way: z.enum(markWays),
    late: z.boolean(),
  }),
  z.strictObject({
    kind: z.literal("totals"),
    on: z.int(),
    off: z.int(),
    way: z.enum(markWays),
  }),
]);
export const correctionSchema = z.strictObject({
  was: entrySchema,
  is: entrySchema,
  wallMs: z.number(),
  offsetMinutes: z.int(),
});
export type Correction = z.infer<typeof correctionSchema>;

/** A card that was not written, and why; the words are those of the refusal. */
export const refusedCardSchema = z.strictObject({
  studentId: idSchema,
  code: z.enum(["student-set-aside", "box-too-many", "total-too-many"]),
  /** Marks on the card and boxes it has room for. */
  have: z.int(),
  most: z.int(),
});
export type RefusedCard = z.infer<typeof refusedCardSchema>;

const items = z.int().min(0).max(mostItems);

export const workSchema = z.strictObject({
  studentId: idSchema,
  assigned: items,
  completed: items,
  correct: items.nullable(),
});
export type Work = z.infer<typeof workSchema>;

const seedOfKey = z.string().trim().min(1).max(80);
const cueNumber = z.int().min(1).max(2_000);

export const heldInputSchema = z.strictObject({
  groupId: idSchema,
  planId: idSchema,
  cues: z.discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("seed"),
      seed: seedOfKey,
      /** Whose own key it was; null for the group's. */
      studentId: idSchema.nullable(),
      missed: z.array(cueNumber).max(2_000),
      /** The mean that the key says, where it was printed for a step of thinning; null for the plan's own. */
      meanSeconds: z.number().min(5).max(10_800).nullable(),
    }),
    z.strictObject({ kind: z.literal("counted"), count: cueNumber }),
  ]),
  /** When it began: ISO 8601 with the local offset. */
  startedAt: z.string().max(40),
  absentIds: z.array(idSchema).max(100),
  /** Such as who led it; may be empty. */
  note: z.string().trim().max(200),
});
export type HeldInput = z.infer<typeof heldInputSchema>;

export const records = {
  /** Enters a session that was held without the app; its cards come after. */
  enterHeld: procedure.input(heldInputSchema).output(sessionSchema),
  /** The cards of an ended session, with what is already entered. */
  cards: procedure.input(z.strictObject({ sessionId: idSchema })).output(
    z.strictObject({
      session: sessionSchema,
      cuesDelivered: z.int(),
      /** Boxes on the printed card: more than this cannot be entered. */
      boxesOnCard: z.int(),
      /** The code on cards printed for this session, and on cards printed without a date. */
      code: z.string(),
      openCode: z.string(),
      rows: z.array(cardRowSchema),
      work: z.array(workSchema),
    }),
  ),
  /** What was replaced on one student's card, oldest first. */
  corrections: procedure
    .input(z.strictObject({ sessionId: idSchema, studentId: idSchema }))
    .output(z.array(correctionSchema)),
  /** Which sessions, newest first, and which plans for cards without a date, a code on cards stands for. */
  sessionsOfCode: procedure.input(z.strictObject({ code: z.string().trim().max(20) })).output(
    z.strictObject({
      sessions: z.array(sessionSchema),
      plans: z.array(
        z.strictObject({ groupId: idSchema, groupName: z.string(), planName: z.string() }),
      ),
      /** Sessions that the code could stand for and that are not here; the day is null when it is written by hand. */
      notHeld: z.array(
        z.strictObject({
          groupId: idSchema,
          groupName: z.string(),
          planId: idSchema,
          planName: z.string(),
          day: z.iso.date().nullable(),
        }),
      ),
    }),
  ),
  /**
   * Stores only what differs from what is there; the old marks stay in the history. A card that cannot
   * be written is named and holds no other back.
   */
  saveCards: procedure
    .input(
      z.strictObject({
        sessionId: idSchema,
        cards: z
          .array(z.strictObject({ studentId: idSchema, card: cardSchema }))
          .min(1)
          .max(100),
      }),
    )
    .output(z.strictObject({ written: z.int(), refused: z.array(refusedCardSchema) })),
  saveWork: procedure
    .input(z.strictObject({ sessionId: idSchema, work: z.array(workSchema).min(1).max(100) }))
    .output(z.strictObject({ written: z.int() })),
  /** A second observer's sheet typed in afterwards, or the first one's; only what differs is written. */
  saveObserved: procedure
    .input(
      z.strictObject({
        sessionId: idSchema,
        observer: z.union([z.literal(1), z.literal(2)]),
        marks: z
          .array(
            z.strictObject({
              studentId: idSchema,
              cue: z.int().min(1).max(mostCues),
              value: z.enum(seenValues),
            }),
          )
          .min(1)
          .max(5_000),
      }),
    )
    .output(z.strictObject({ written: z.int() })),
};
