import { z } from "zod";
import { periodSchema } from "../roster/privilege.ts";
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

/** A named stretch of the school year, such as a term or a quarter; both ends included. */
export const termSchema = z.strictObject({
  id: idSchema,
  name: z.string().trim().min(1).max(60),
  firstDay: day,
  lastDay: day,
});
export type Term = z.infer<typeof termSchema>;

/** A stretch of a group's day, on each weekday on which the group sits. */
export const groupPeriodSchema = periodSchema.extend({ groupId: idSchema });
export type GroupPeriod = z.infer<typeof groupPeriodSchema>;

export const timetableSchema = z.strictObject({
  today: day,
  groups: z.array(groupWeekdaysSchema),
  /** Of all groups, in the order of their lists. */
  periods: z.array(groupPeriodSchema),
});
export type Timetable = z.infer<typeof timetableSchema>;
