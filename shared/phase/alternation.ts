import { z } from "zod";
import { idSchema } from "../roster/roster.ts";

/** Fewest, usual and most sessions of an alternation; half of them are under each condition. */
export const alternationSessions = { fewest: 10, usual: 10, most: 24 } as const;

/** The two conditions of an alternation, by the letters that its order is written in. */
export const conditions = ["A", "B"] as const;
export type Condition = (typeof conditions)[number];

const named = z.string().trim().min(1).max(60);

/** The number of sessions of an alternation: even, so that each condition has half of them. */
export const alternationLengthSchema = z
  .int()
  .min(alternationSessions.fewest)
  .max(alternationSessions.most)
  .refine((sessions) => sessions % 2 === 0, "each condition has half of the sessions");

/** Two conditions that take turns by session in a drawn order, for a whole group. */
export const alternationSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  /** What differs under A and under B, in the teacher's words. */
  nameA: named,
  nameB: named,
  /** One letter a session, in order of time; drawn before the first of them. */
  order: z
    .string()
    .regex(/^[AB]+$/)
    .refine(({ length }) => alternationLengthSchema.safeParse(length).success),
  seed: z.string().regex(/^[a-z0-9]{1,12}$/),
  /** How often an order was drawn until this one was kept; only a first draw allows an exact test. */
  times: z.int().min(1),
  /** The sessions held so far, each with its place in the order, from 1. */
  sessions: z.array(z.strictObject({ sessionId: idSchema, place: z.int().min(1) })),
});
export type Alternation = z.infer<typeof alternationSchema>;

/** The place in the order of the session to come, from 1, and its condition; null when all are held. */
export function nextTurn({
  order,
  sessions,
}: Pick<Alternation, "order" | "sessions">): { place: number; condition: Condition } | null {
  const place = 1 + Math.max(0, ...sessions.map((session) => session.place));
  const condition = conditionAt(order, place);
  return condition === null ? null : { place, condition };
}

/** The condition at a place in an order, from 1; null outside it. Example: conditionAt("ABBA", 2) // "B" */
export const conditionAt = (order: string, place: number): Condition | null =>
  conditions.find((condition) => condition === order[place - 1]) ?? null;

/** What a condition is called. Example: conditionName({ nameA: "Music", nameB: "Quiet" }, "B") // "Quiet" */
export const conditionName = (
  { nameA, nameB }: Pick<Alternation, "nameA" | "nameB">,
  condition: Condition,
): string => (condition === "A" ? nameA : nameB);
