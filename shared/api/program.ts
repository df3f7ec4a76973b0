import { z } from "zod";
import {
  dayOffSchema,
  groupWeekdaysSchema,
  termSchema,
  timetableSchema,
} from "../calendar/timetable.ts";
import { practiceExamplesSchema } from "../roster/practice-examples.ts";
import { programSchema } from "../roster/program.ts";
import { idSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";

const nothing = z.strictObject({});

export const calendar = {
  daysOff: procedure.output(z.array(dayOffSchema)),
  add: procedure.input(dayOffSchema.omit({ id: true })).output(dayOffSchema),
  remove: procedure.input(z.strictObject({ id: idSchema })).output(nothing),
  /** Today's school-local day, and on which weekdays each group sits; archived groups are among them. */
  timetable: procedure.output(timetableSchema),
  terms: procedure.output(z.array(termSchema)),
  addTerm: procedure.input(termSchema.omit({ id: true })).output(termSchema),
  removeTerm: procedure.input(z.strictObject({ id: idSchema })).output(nothing),
  /** What waited on Today and was put aside, by the names that the page gave it. */
  asides: procedure.output(z.array(z.string())),
  putAside: procedure
    .input(z.strictObject({ what: z.string().min(1).max(120), aside: z.boolean() }))
    .output(nothing),
  saveWeekdays: procedure.input(groupWeekdaysSchema).output(nothing),
};

export const program = {
  /** A group that never saved one gets the usual program. */
  get: procedure.input(z.strictObject({ groupId: idSchema })).output(programSchema),
  save: procedure
    .input(programSchema.omit({ placeSince: true, placeSinceMs: true, pointsPaid: true }))
    .output(programSchema),
};

export const practice = {
  examples: procedure.input(z.strictObject({ groupId: idSchema })).output(practiceExamplesSchema),
  saveExamples: procedure
    .input(z.strictObject({ groupId: idSchema, examples: practiceExamplesSchema }))
    .output(nothing),
};
