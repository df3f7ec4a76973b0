import { z } from "zod";
import { idSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";

/** Letters of a WAV file of the longest chime, in base64. */
const mostLetters = 1_100_000;
const sound = z.base64().max(mostLetters);

/** A chime that the teacher brought. */
export const keptChimeSchema = z.strictObject({
  id: idSchema,
  name: z.string().trim().min(1).max(60),
  /** Plans that have it, archived ones too. */
  plans: z.int().min(0),
});
export type KeptChime = z.infer<typeof keptChimeSchema>;

export const chimes = {
  /** In the order in which they were added. */
  list: procedure.output(z.array(keptChimeSchema)),
  /** Its WAV file; null when there is none any more. */
  sound: procedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.strictObject({ sound: sound.nullable() })),
  /** Keeps a WAV file as the page prepares it: one channel, 16 bits, 48 kHz, at the loudness of a chime. */
  add: procedure
    .input(keptChimeSchema.pick({ name: true }).extend({ sound }))
    .output(keptChimeSchema),
  /** Removes it; plans that have it get the bell instead, and it is said how many. */
  remove: procedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.strictObject({ plansChanged: z.int() })),
};
