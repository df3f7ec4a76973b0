import { z } from "zod";
import { contractSchema } from "../home/contract-terms.ts";
import { idSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";

const day = z.iso.date();
const nothing = z.strictObject({});
const byId = z.strictObject({ id: idSchema });

/** A day under a contract: its outcome as the record stands, and what was decided when it was closed. */
export const contractDayLineSchema = z.strictObject({
  day,
  outcome: z.enum(["met", "not-yet", "no-data"]),
  closed: z.boolean(),
  /** Whether seatwork of the day was left out of the numbers. */
  leftOut: z.boolean(),
  /** Points that the day earned, and cost, in all. */
  gained: z.int(),
  cost: z.int(),
});
export type ContractDayLine = z.infer<typeof contractDayLineSchema>;

export const contractWithDaysSchema = z.strictObject({
  contract: contractSchema,
  /** Days with seatwork since its first day, oldest first. */
  days: z.array(contractDayLineSchema),
});
export type ContractWithDays = z.infer<typeof contractWithDaysSchema>;

/** Written agreements with a student. */
export const contracts = {
  /** Of one student, newest first. */
  ofStudent: procedure
    .input(z.strictObject({ studentId: idSchema }))
    .output(z.array(contractWithDaysSchema)),
  /** Those of a group that hold or wait to be signed, in the students' order. */
  ofGroup: procedure.input(z.strictObject({ groupId: idSchema })).output(z.array(contractSchema)),
  /** Writes one, still without signatures; the one before it stays until this is signed. */
  add: procedure
    .input(contractSchema.omit({ id: true, signedOn: true, endedOn: true }))
    .output(contractSchema),
  /** Both said yes: it holds from its first day on, and what held before ends the day before. */
  sign: procedure.input(byId).output(nothing),
  /** Today is its last day; one that was never signed is put away. */
  end: procedure.input(byId).output(nothing),
  /**
   * Closes a day with seatwork: what it earned is paid, and what it costs is decided, once. Corrections of
   * its records later on move what it earned and never what it cost. Earlier days are closed with it.
   */
  closeDay: procedure.input(z.strictObject({ id: idSchema, day })).output(nothing),
};
