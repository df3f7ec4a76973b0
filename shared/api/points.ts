import { z } from "zod";
import { classTimerSchema } from "../roster/class-timer.ts";
import { ownGoalSchema } from "../roster/own-goal.ts";
import { periodSchema, privilegeSchema } from "../roster/privilege.ts";
import { idSchema, studentSchema } from "../roster/roster.ts";
import { givenReasons, mostGiven, mostTaken, takenReasons } from "../session/event.ts";
import { ledgerLineSchema } from "../transfer/ledger-line.ts";
import { procedure } from "./errors.ts";

const nothing = z.strictObject({});
const group = z.strictObject({ groupId: idSchema });
/** Made by the page for one press, so that a press sent twice is one press. */
const press = z.uuid();
const pressOn = z.strictObject({ sessionId: idSchema, studentId: idSchema, press });
const whole = z.int();

/** One student's points. */
export const purseSchema = z.strictObject({
  studentId: idSchema,
  balance: whole.min(0),
  /** What today brought, less what was taken. */
  earnedToday: whole,
  spentToday: whole,
});
export type Purse = z.infer<typeof purseSchema>;

/** An exchange of today. */
export const receiptSchema = z.strictObject({
  studentId: idSchema,
  privilegeId: idSchema.nullable(),
  press,
  price: whole,
  wallMs: z.number(),
  undone: z.boolean(),
  /** Whether it can still be taken back. */
  canUndo: z.boolean(),
});
export type Receipt = z.infer<typeof receiptSchema>;

/** How points are saved up; for the adult alone. */
export const savingSchema = z.strictObject({
  /** Days of earning that the median purse holds; null while nobody earned anything. */
  medianDays: z.number().nullable(),
  /** Share of what was given in the last ten days that was spent; null while nothing was given. */
  spentShare: z.number().nullable(),
  /** Students who had points and exchanged nothing on the last three days with points. */
  notSpending: z.array(idSchema),
});
export type Saving = z.infer<typeof savingSchema>;

/** A timer of the class, and how much of it is left just now. */
export const timerLeftSchema = classTimerSchema
  .omit({ endsMs: true })
  .extend({ leftMs: z.number().min(0) });
export type TimerLeft = z.infer<typeof timerLeftSchema>;

/** What of points may stand before the class: whose picture can be pressed, and the timers. */
export const pointsBoardSchema = z.strictObject({
  groupId: idSchema,
  students: z.array(studentSchema.pick({ id: true, name: true, picture: true })),
  timers: z.array(timerLeftSchema),
});
export type PointsBoard = z.infer<typeof pointsBoardSchema>;

/** One student's own view. */
export const ownPurseSchema = purseSchema.extend({
  /** What this student can have, cheapest first. */
  privileges: z.array(privilegeSchema.pick({ id: true, name: true, picture: true, price: true })),
  savingFor: idSchema.nullable(),
});
export type OwnPurse = z.infer<typeof ownPurseSchema>;

export const pointsStateSchema = z.strictObject({
  /** Whether points are shown: a plan of the group earns, or what is left is being spent. */
  on: z.boolean(),
  /** Whether a plan of the group earns, and points are not switched off. */
  earns: z.boolean(),
  /** The last day on which what is left is spent; null where that was not announced or is over. */
  spendUntil: z.iso.date().nullable(),
  day: z.string(),
  /** Share of cues that are checked, of the student checked least in the last ten sessions; or by the plan. */
  checkedShare: z.number().min(0).max(1),
  purses: z.array(purseSchema),
  privileges: z.array(privilegeSchema),
  periods: z.array(periodSchema),
  receipts: z.array(receiptSchema),
  saving: savingSchema,
  /** Points given by the adult on a day, by student, over the last ten days with points. */
  givenADay: z.array(z.strictObject({ studentId: idSchema, points: z.number().min(0) })),
  /** Exchanges of a day: by the periods, or else as it was lately. */
  exchanges: whole.min(1),
  ownGoals: z.array(ownGoalSchema),
  savingFor: z.array(z.strictObject({ studentId: idSchema, privilegeId: idSchema })),
  timers: z.array(timerLeftSchema),
});
export type PointsState = z.infer<typeof pointsStateSchema>;

/** Given and taken of one student, and what there is to do where the ratio does not hold. */
export const standingSchema = z.strictObject({
  studentId: idSchema,
  balance: whole,
  given: whole,
  taken: whole,
  /** The same over the last ten sessions in which the student took part. */
  lately: z.strictObject({ given: whole, taken: whole }),
  stopped: z.boolean(),
  /** The newest take of this session that can still be taken back; null when there is none. */
  newestTake: press.nullable(),
});
export type Standing = z.infer<typeof standingSchema>;

export const points = {
  state: procedure.input(group).output(pointsStateSchema),
  give: procedure
    .input(pressOn.extend({ amount: whole.min(1).max(mostGiven), why: z.enum(givenReasons) }))
    .output(nothing),
  /** Refused by the guard, with the reason. */
  take: procedure
    .input(pressOn.extend({ amount: whole.min(1).max(mostTaken), why: z.enum(takenReasons) }))
    .output(nothing),
  /** Takes a press of points given or taken back, for ten minutes. */
  undoPress: procedure.input(pressOn).output(nothing),
  stop: procedure.input(pressOn.omit({ press: true })).output(nothing),
  /** Today's standing of each student of a session. */
  standings: procedure
    .input(z.strictObject({ sessionId: idSchema }))
    .output(z.array(standingSchema)),
  /** On-task marks counted at a glance after the end. */
  savePluses: procedure
    .input(
      z.strictObject({
        sessionId: idSchema,
        pluses: z
          .array(z.strictObject({ studentId: idSchema, on: whole.min(0).max(500) }))
          .max(100),
      }),
    )
    .output(nothing),
  /** `price`: what the page showed; refused where another window has changed it since. */
  buy: procedure
    .input(
      z.strictObject({
        studentId: idSchema,
        privilegeId: idSchema,
        price: privilegeSchema.shape.price,
        press,
      }),
    )
    .output(nothing),
  undoBuy: procedure.input(z.strictObject({ studentId: idSchema, press })).output(nothing),
  addPrivilege: procedure.input(privilegeSchema.omit({ id: true })).output(privilegeSchema),
  savePrivilege: procedure.input(privilegeSchema).output(privilegeSchema),
  archivePrivilege: procedure.input(z.strictObject({ id: idSchema })).output(nothing),
  /** The ledger of a group, so many entries at a time: ask from 0, then from `next` until that is null. */
  ledger: procedure
    .input(group.extend({ after: whole.min(0) }))
    .output(z.strictObject({ lines: z.array(ledgerLineSchema), next: whole.nullable() })),
  /** Null: the plan's goal again. */
  saveOwnGoal: procedure
    .input(z.strictObject({ studentId: idSchema, share: ownGoalSchema.shape.share.nullable() }))
    .output(nothing),
  /** The plans of the group earn no more; what is left can be spent up to and on a day. */
  endEarning: procedure.input(group.extend({ until: z.iso.date() })).output(nothing),
  startTimer: procedure.input(z.strictObject({ privilegeId: idSchema })).output(nothing),
  stopTimer: procedure.input(z.strictObject({ id: idSchema })).output(nothing),
  /** Null where nothing of points belongs before the class just now. */
  board: procedure.output(pointsBoardSchema.nullable()),
  ownPurse: procedure.input(z.strictObject({ studentId: idSchema })).output(ownPurseSchema),
  saveFor: procedure
    .input(z.strictObject({ studentId: idSchema, privilegeId: idSchema.nullable() }))
    .output(nothing),
  savePeriods: procedure
    .input(group.extend({ periods: z.array(periodSchema.omit({ id: true })).max(20) }))
    .output(nothing),
};
