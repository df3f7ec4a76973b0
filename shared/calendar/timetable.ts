import { z } from "zod";
import { idSchema } from "../roster/roster.ts";

const day = z.iso.date();

/** A stretch of days on which the school is closed; both ends included. */
export const dayOffSchema = z.strictObject({
  id: idSchema,
  firstDay: day,
  lastDay: day,
  label: z.string().trim().max(60),
});
export type DayOff = z.infer<typeof dayOffSchema>;

/** The weekdays on which a group sits, 1 for Monday to 7 for Sunday. */
export const groupWeekdaysSchema = z.strictObject({
  groupId: idSchema,
  weekdays: z.array(z.int().min(1).max(7)).min(1).max(7),
});
export type GroupWeekdays = z.infer<typeof groupWeekdaysSchema>;

export const timetableSchema = z.strictObject({ today: day, groups: z.array(groupWeekdaysSchema) });
export type Timetable = z.infer<typeof timetableSchema>;
