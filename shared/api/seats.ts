import { z } from "zod";
import { idSchema } from "../roster/roster.ts";
import { certificateProblems } from "../seats/certificate-problems.ts";
import { mostSockets } from "../seats/limits.ts";
import { seatCarriers, seatLanguages, seatLooks } from "../seats/message.ts";
import { procedure } from "./errors.ts";

/** As many devices as the server takes in all. */
export const mostSeats = mostSockets;

const nothing = z.strictObject({});
const group = z.strictObject({ groupId: idSchema });
const one = z.strictObject({ seatId: idSchema });

/** One student's own device, as the teacher sees it. */
export const seatSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  number: z.int(),
  studentId: idSchema.nullable(),
  language: z.enum(seatLanguages),
  look: z.enum(seatLooks),
  /** Whether a printed slip opens it. */
  hasSlip: z.boolean(),
  joined: z.boolean(),
  /** It has joined, and nothing was heard of it for a while: dark, locked, or put away. */
  asleep: z.boolean(),
  /** What was tried out when it joined, and works. */
  carriers: z.array(z.enum(seatCarriers)),
  /** Cues of the present session that reached the class and were not shown here. */
  missed: z.array(z.int()),
});
export type Seat = z.infer<typeof seatSchema>;

export const closedReasons = ["never", "teacher", "day", "sleep", "locked"] as const;

export const seatsStateSchema = z.strictObject({
  isOpen: z.boolean(),
  /** Why seats are closed; null while they are open. */
  closedBecause: z.enum(closedReasons).nullable(),
  /** When they close by themselves, HH:MM; null while they are closed. */
  until: z.string().nullable(),
  /** Where devices find this computer, the likeliest first; without an address, no network is joined. */
  addresses: z.array(z.string()),
  /** Whether what goes over the line is encrypted. */
  isSecure: z.boolean(),
  /** Why the encrypted line that was asked for cannot be had, so that seats stay closed; null when it can. */
  certificateProblem: z.enum(certificateProblems).nullable(),
  /** The address on the newest slips, when devices do not find this computer there any more. */
  movedFrom: z.string().nullable(),
  /** Opens the adult's pocket page; null while seats are closed. */
  pocketCode: z.string().nullable(),
  /** Too many wrong codes were tried: joining waits some minutes. */
  joiningPaused: z.boolean(),
  seats: z.array(seatSchema),
});
export type SeatsState = z.infer<typeof seatsStateSchema>;

/** What is printed once on a slip and kept nowhere. */
export const slipSchema = z.strictObject({ number: z.int(), code: z.string() });
export type Slip = z.infer<typeof slipSchema>;

/** Students' own devices. */
export const seats = {
  state: procedure.input(group).output(seatsStateSchema),
  /** Opens seats until the end of the school day. */
  open: procedure.output(nothing),
  close: procedure.output(nothing),
  /** One more seat, for nobody yet. */
  add: procedure.input(group).output(seatSchema),
  /** Fresh codes, a slip each; the old slips of these seats are void. A seat is made for each student without one. */
  makeSlips: procedure
    .input(group.extend({ seatIds: z.array(idSchema).max(mostSeats).nullable() }))
    .output(z.strictObject({ address: z.string(), slips: z.array(slipSchema) })),
  /** Whose seat it is; only the teacher's own screen knows. */
  tie: procedure.input(one.extend({ studentId: idSchema.nullable() })).output(nothing),
  dress: procedure
    .input(one.extend({ language: z.enum(seatLanguages), look: z.enum(seatLooks) }))
    .output(nothing),
  /** Lets the device go that has joined; its slip stays good. */
  free: procedure.input(one).output(nothing),
  /** Makes the slip void, and lets the device go. */
  voidSlip: procedure.input(one).output(nothing),
  remove: procedure.input(one).output(nothing),
};
