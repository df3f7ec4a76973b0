import { z } from "zod";
import { groupSchema, idSchema, studentSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";

const { name, target } = groupSchema.shape;

const nothing = z.strictObject({});
const byId = z.strictObject({ id: idSchema });

export const groups = {
  list: procedure.input(z.strictObject({ archived: z.boolean() })).output(z.array(groupSchema)),
  create: procedure.input(z.strictObject({ name, target })).output(groupSchema),
  update: procedure
    .input(z.strictObject({ id: idSchema, name: name.optional(), target: target.optional() }))
    .output(groupSchema),
  /** Groups in the archive for a year or more for which no day was named: to hand over, to keep, or to erase. */
  longArchived: procedure.output(
    z.array(z.strictObject({ id: idSchema, name: z.string(), years: z.int().min(1) })),
  ),
  /** The groups that are kept until a day, and whether it has come. */
  kept: procedure.output(
    z.array(z.strictObject({ id: idSchema, until: z.iso.date(), hasCome: z.boolean() })),
  ),
  /** Keeps an archived group until a day, as the school's rules say; null names none. */
  keepUntil: procedure
    .input(z.strictObject({ id: idSchema, day: z.iso.date().nullable() }))
    .output(nothing),
  /** Removes every trace of an archived group with its students, from kept backups too. */
  erase: procedure
    .input(byId)
    .output(z.strictObject({ students: z.int(), sessions: z.int(), backups: z.int() })),
  archive: procedure.input(byId).output(nothing),
  restore: procedure.input(byId).output(nothing),
  /** All ids of the shown groups in the wanted order. */
  reorder: procedure.input(z.strictObject({ ids: z.array(idSchema).max(200) })).output(nothing),
};

export const students = {
  list: procedure
    .input(z.strictObject({ groupId: idSchema, archived: z.boolean() }))
    .output(z.array(studentSchema)),
  update: procedure
    .input(
      z.strictObject({
        id: idSchema,
        name: name.optional(),
        picture: z.string().max(40).nullable().optional(),
        target: target.optional(),
        holdGoal: studentSchema.shape.holdGoal.optional(),
      }),
    )
    .output(studentSchema),
  /**
   * Moves a student to another group, at the end of its list. The sessions until now stay in the numbers of
   * the group they were held in; the student's own pages read them all.
   */
  move: procedure.input(z.strictObject({ id: idSchema, groupId: idSchema })).output(studentSchema),
  archive: procedure.input(byId).output(nothing),
  restore: procedure.input(byId).output(nothing),
  reorder: procedure
    .input(z.strictObject({ groupId: idSchema, ids: z.array(idSchema).max(200) }))
    .output(nothing),
  /** Removes every trace of a student, from kept backups too, and says what was removed. */
  erase: procedure.input(byId).output(z.strictObject({ events: z.int(), backups: z.int() })),
};
