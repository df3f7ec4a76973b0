import { z } from "zod";
import { alternationLengthSchema, alternationSchema } from "../phase/alternation.ts";
import { idSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";

/** Two conditions that take turns by session; each seatwork session of the group takes the next turn. */
export const alternations = {
  /** Oldest first; at most one of them has sessions to come. */
  list: procedure.input(z.strictObject({ groupId: idSchema })).output(z.array(alternationSchema)),
  /** The order follows from seed and number of sessions; refused while another one is open. */
  create: procedure
    .input(
      alternationSchema
        .omit({ id: true, order: true, sessions: true })
        .extend({ sessions: alternationLengthSchema }),
    )
    .output(alternationSchema),
  /** The sessions stay in the records. */
  remove: procedure.input(z.strictObject({ id: idSchema })).output(z.strictObject({})),
};
