import { z } from "zod";
import { idSchema } from "../roster/roster.ts";
import {
  pairLessonSchema,
  teamNameSchema,
  teamRoundSchema,
  teamSettingsSchema,
  teamsSchema,
  teamWishSchema,
} from "../teams/kept.ts";
import { mostTeamRounds, mostTeamStudents } from "../teams/limits.ts";
import { procedure } from "./errors.ts";

const nothing = z.strictObject({});
const group = z.strictObject({ groupId: idSchema });
const day = z.iso.date();
const outcome = z.enum(["met", "not-yet", "no-data"]);

/** A team of today: who is in it and here, and whether it met its goal; never how nearly. */
export const teamTodaySchema = z.strictObject({
  /** Place among the group's teams, from 1. */
  team: z.int().min(1),
  name: z.string(),
  studentIds: z.array(idSchema),
  /** Null where no team goal is set. */
  outcome: outcome.nullable(),
});
export type TeamToday = z.infer<typeof teamTodaySchema>;

export const teamsStateSchema = z.strictObject({
  today: day,
  /** Null where the group has no teams yet. */
  settings: teamSettingsSchema.nullable(),
  /** What the next deal is drawn from, and its number. */
  seed: z.string(),
  deals: z.int().min(0),
  names: z.array(z.string()),
  wishes: z.array(teamWishSchema),
  rounds: z.array(teamRoundSchema),
  /** Absent by today's roll. */
  absentIds: z.array(idSchema),
  /** Who takes no part, and so is in no team; see what was agreed. */
  outIds: z.array(idSchema),
  teams: z.array(teamTodaySchema),
  /** Wishes that today's teams cannot keep among those who are here, and whether sizes differ by more than one. */
  unmet: z.array(teamWishSchema),
  isUneven: z.boolean(),
  /** Whether points are earned here at all. */
  earns: z.boolean(),
  /** Whether the ledger holds what today's outcomes give. */
  arePointsGiven: z.boolean(),
  /** The last day before today with seatwork in a round, whose cards may have been typed since; null without one. */
  earlier: z
    .strictObject({
      day,
      /** Teams that met the goal on it, by their numbers. */
      met: z.array(z.int().min(1)),
      arePointsGiven: z.boolean(),
    })
    .nullable(),
});
export type TeamsState = z.infer<typeof teamsStateSchema>;

export const teams = {
  state: procedure.input(group).output(teamsStateSchema),
  /** With `before`, what the page went on from, refused where another window has saved something else since. */
  saveSettings: procedure
    .input(
      group.extend({
        settings: teamSettingsSchema,
        before: teamSettingsSchema.nullable().optional(),
      }),
    )
    .output(nothing),
  saveNames: procedure
    .input(
      group.extend({
        names: z.array(teamNameSchema).max(mostTeamStudents),
        before: z.array(teamNameSchema).max(mostTeamStudents).optional(),
      }),
    )
    .output(nothing),
  saveWishes: procedure
    .input(
      group.extend({
        wishes: z.array(teamWishSchema).max(60),
        before: z.array(teamWishSchema).max(60).optional(),
      }),
    )
    .output(nothing),
  /**
   * Keeps what the page dealt in the place of all rounds to come. Refused unless each round has every student
   * once, in the sizes and under the wishes that are kept now.
   */
  deal: procedure
    .input(
      group.extend({
        /** The number of this deal, as the state gave it: two windows deal only once. */
        deals: z.int().min(0),
        rounds: z.array(teamsSchema).min(1).max(mostTeamRounds),
      }),
    )
    .output(nothing),
  /**
   * Two students change places in today's round; nobody has to say why. Refused where the teams are not those
   * that were shown: another window may have swapped meanwhile.
   */
  swap: procedure
    .input(
      z.strictObject({ roundId: idSchema, oneId: idSchema, otherId: idSchema, shown: teamsSchema }),
    )
    .output(nothing),
  /** Brings the ledger to what the outcomes of a day give each student who was here. */
  givePoints: procedure.input(group.extend({ day })).output(nothing),
  /** The teams' names, empty for a team by its number, and whether the goal is met, where the teacher shows them. */
  onClassScreen: procedure
    .input(z.strictObject({ sessionId: idSchema }))
    .output(z.array(z.strictObject({ name: z.string(), outcome: outcome.nullable() }))),
};

export const pairsStateSchema = z.strictObject({
  today: day,
  lessons: z.array(pairLessonSchema),
  /** Absent by today's roll. */
  absentIds: z.array(idSchema),
  earns: z.boolean(),
});
export type PairsState = z.infer<typeof pairsStateSchema>;

const lesson = z.strictObject({ lessonId: idSchema });

export const pairs = {
  state: procedure.input(group).output(pairsStateSchema),
  /** Makes today's pairs, without whoever is absent. */
  begin: procedure
    .input(
      group.extend({
        absentIds: z.array(idSchema).max(mostTeamStudents),
        points: pairLessonSchema.shape.points,
        /** How many lessons the page knew: two windows make one lesson only. */
        lessons: z.int().min(0).optional(),
      }),
    )
    .output(pairLessonSchema),
  /** Says of students whether their pair corrected both papers, and pays what that gives. */
  correct: procedure
    .input(
      lesson.extend({
        studentIds: z.array(idSchema).min(1).max(mostTeamStudents),
        corrected: z.boolean(),
      }),
    )
    .output(nothing),
  /** Takes a lesson out that was not held; what it paid is taken back as far as it is still there. */
  remove: procedure.input(lesson).output(nothing),
};
