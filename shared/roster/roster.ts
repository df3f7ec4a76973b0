import { z } from "zod";

export const idSchema = z.uuidv7();
const name = z.string().trim().min(1).max(60);
const target = z.string().trim().max(300);

export const groupSchema = z.strictObject({
  id: idSchema,
  name,
  /** What counts as working, in words a child can repeat. */
  target,
  isSample: z.boolean(),
  archived: z.boolean(),
  studentCount: z.int(),
});
export type Group = z.infer<typeof groupSchema>;

export const studentSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  name,
  /** Name of a built-in picture, or null for none. */
  picture: z.string().max(40).nullable(),
  /** The student's own target; empty means the group's. */
  target,
  /** The student's own hold goal, a share of marks on task; null means the group's. */
  holdGoal: z.number().min(0.05).max(1).nullable(),
  /** Whether the student was in another group before, which keeps the sessions of that time. */
  hasMoved: z.boolean(),
  archived: z.boolean(),
});
export type Student = z.infer<typeof studentSchema>;
