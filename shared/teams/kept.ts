import { z } from "zod";
import { idSchema } from "../roster/roster.ts";
import { mostTeamRounds, mostTeamStudents } from "./limits.ts";

const day = z.iso.date();
/** Points that each of a team or a pair gets; none where it is 0. */
const points = z.int().min(0).max(20);

/** How a group's teams are dealt over a term, and what they work for. */
export const teamSettingsSchema = z.strictObject({
  /** Wished size of a team; sizes differ by one at most. */
  size: z.int().min(2).max(12),
  /** Rounds of a term. */
  rounds: z.int().min(1).max(mostTeamRounds),
  /** The weekday on which the next round begins, 1 for Monday to 7 for Sunday. */
  weekday: z.int().min(1).max(7),
  /** The team goal as a share of pooled marks on task; null for none. */
  goal: z.number().min(0.05).max(1).nullable(),
  points,
  /** Whether the class screen shows the teams' names, and met or not yet. */
  isShown: z.boolean(),
});
export type TeamSettings = z.infer<typeof teamSettingsSchema>;

export const wishKinds = ["apart", "together"] as const;
/** Students who are never in one team, or always. */
export const teamWishSchema = z.strictObject({
  kind: z.enum(wishKinds),
  studentIds: z.array(idSchema).min(2).max(12),
});
export type TeamWish = z.infer<typeof teamWishSchema>;

/** A team's name; teams without one are numbered. */
export const teamNameSchema = z.string().trim().max(30);

/** Teams of one round, in the order of their names; each a list of students. */
export const teamsSchema = z
  .array(z.array(idSchema).max(mostTeamStudents))
  .min(1)
  .max(mostTeamStudents);

/** One round that is kept: who is in a team with whom, from a day on until the next one. */
export const teamRoundSchema = z.strictObject({
  id: idSchema,
  /** From 1, in the order in which they are held. */
  number: z.int().min(1),
  startsOn: day,
  teams: teamsSchema,
});
export type TeamRound = z.infer<typeof teamRoundSchema>;

/** A student in one lesson of peer tutoring. */
export const pairPartSchema = z.strictObject({
  studentId: idSchema,
  /** From 1; null for who was left over and joined a pair. */
  pair: z.int().min(1).nullable(),
  /** Whether this one taught first; false for who was left over. */
  taught: z.boolean(),
  /** Whether the pair corrected both papers together. */
  corrected: z.boolean(),
});
export type PairPart = z.infer<typeof pairPartSchema>;

/** One lesson of peer tutoring that is kept. */
export const pairLessonSchema = z.strictObject({
  id: idSchema,
  day,
  /** Points each one gets once the papers are corrected. */
  points,
  parts: z.array(pairPartSchema).max(mostTeamStudents),
});
export type PairLesson = z.infer<typeof pairLessonSchema>;

/** What is kept of one student in teams and pairs, without saying who the others were. */
export const studentTogetherSchema = z.strictObject({
  /** In which team of which round, from which day on. */
  teams: z.array(
    z.strictObject({
      round: z.int().min(1),
      startsOn: day,
      team: z.int().min(1),
      /** Empty where the team has none. */
      name: z.string(),
    }),
  ),
  /** How many others the student is never or always in one team with, for each wish. */
  wishes: z.array(z.strictObject({ kind: z.enum(wishKinds), others: z.int().min(1) })),
  /** Lessons of peer tutoring: what the student did first, and whether the pair corrected its papers. */
  pairs: z.array(
    z.strictObject({
      day,
      role: z.enum(["taught", "learned", "joined"]),
      corrected: z.boolean(),
    }),
  ),
});
export type StudentTogether = z.infer<typeof studentTogetherSchema>;

/** A group's teams and lessons in pairs, as its record holds them. */
export const groupTogetherSchema = z.strictObject({
  /** How teams are dealt; null where the group has none. */
  settings: teamSettingsSchema.nullable(),
  /** By team, from the first; empty for a team by its number. */
  names: z.array(z.string()),
  wishes: z.array(teamWishSchema),
  rounds: z.array(teamRoundSchema.omit({ id: true })),
  /** Oldest first. */
  lessons: z.array(pairLessonSchema.omit({ id: true })),
});
export type GroupTogether = z.infer<typeof groupTogetherSchema>;
