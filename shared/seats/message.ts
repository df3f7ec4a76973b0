import { z } from "zod";
import { typedCode } from "./code.ts";
import { longestSeatMessageBytes, mostSeatCues } from "./limits.ts";

// Every message between a device and the seats' server; there are no others.

export const seatLanguages = ["en", "es"] as const;
/** `pictures` is for those who do not read yet. */
export const seatLooks = ["words", "pictures"] as const;
/** How a device can carry a cue, tried out when it joined. */
export const seatCarriers = ["sign", "touch", "tick"] as const;
export type SeatCarrier = (typeof seatCarriers)[number];

/** Names one session on the line, so that an answer that waited is never kept for another one's cue. */
const session = z.string().regex(/^[A-Za-z0-9_-]{1,24}$/);
const cue = z.int().min(1).max(mostSeatCues);
const ms = z.number().min(-1e15).max(1e15);
const place = z.int().min(1).max(100);
const press = z.uuid();
const value = z.enum(["on", "off", "none"]);

/** What a device says. */
export const fromSeatSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("hello"), code: z.string().max(20) }),
  /** What was tried out at joining, and works. */
  z.strictObject({ kind: z.literal("ready"), carriers: z.array(z.enum(seatCarriers)).max(3) }),
  /** Awake and in front. Never kept. */
  z.strictObject({ kind: z.literal("alive") }),
  /** Asks for the conductor's time; `t` comes back as it was. */
  z.strictObject({ kind: z.literal("clock"), t: ms }),
  /** A cue was shown; `at` in the conductor's time. */
  z.strictObject({ kind: z.literal("began"), session, cue, by: z.enum(seatCarriers), at: ms }),
  /** An answer, or `none` to take it back. */
  z.strictObject({ kind: z.literal("mark"), session, cue, value }),
  /** "I was away" at this cue: no answer, and none is missed; false takes it back. */
  z.strictObject({ kind: z.literal("away"), session, cue, away: z.boolean() }),
  z.strictObject({ kind: z.literal("give"), press, place, amount: z.int().min(1).max(5) }),
  z.strictObject({ kind: z.literal("take"), press, place }),
]);
export type FromSeat = z.infer<typeof fromSeatSchema>;

const mark = z.strictObject({ cue, value, late: z.boolean() });
export type KeptMark = z.infer<typeof mark>;

/** Where a seat stands: `idle` between sessions, or when none of the cues is for it. */
export const seatStandings = ["untied", "idle", "running", "paused", "ended"] as const;
export type SeatStanding = (typeof seatStandings)[number];

/** Why the pocket page's press did nothing; the last ones are the guard's. */
export const pocketRefusals = [
  "no-session",
  "points-off",
  "taking-off",
  "not-agreed",
  "unknown-place",
  "stopped",
  "too-soon",
  "none-left",
  "two-to-one",
  "not-kept",
] as const;
export type PocketRefusal = (typeof pocketRefusals)[number];

const placeSchema = z.strictObject({
  place,
  row: z.int().min(1),
  column: z.int().min(1),
  /** Only where the teacher turned names on, over an encrypted line. */
  name: z.string().max(60).optional(),
});
export type PocketPlace = z.infer<typeof placeSchema>;

/** What a device hears. */
export const toSeatSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("seat"),
    number: z.int().min(1),
    language: z.enum(seatLanguages),
    look: z.enum(seatLooks),
  }),
  /** This seat's answers that are kept. */
  z.strictObject({ kind: z.literal("kept"), session, marks: z.array(mark) }),
  /** An answer that was not kept: its cue reached nobody, or is too long ago. */
  z.strictObject({ kind: z.literal("unkept"), session, cue, why: z.enum(["no-cue", "too-late"]) }),
  z.strictObject({ kind: z.literal("clock"), t: ms, at: ms }),
  /** This seat's next cue, a moment ahead. */
  z.strictObject({ kind: z.literal("due"), session, cue, atServer: ms }),
  z.strictObject({ kind: z.literal("cancelled"), session, cue }),
  z.strictObject({
    kind: z.literal("state"),
    is: z.enum(seatStandings),
    session: session.nullable(),
    /** Own points; absent where nothing earns. */
    points: z.int().min(0).optional(),
  }),
  /** The teacher has set this device free. */
  z.strictObject({ kind: z.literal("freed") }),
  z.strictObject({
    kind: z.literal("closed"),
    why: z.enum(["code", "wait", "paused", "elsewhere", "closed"]),
  }),
  z.strictObject({
    kind: z.literal("places"),
    language: z.enum(seatLanguages),
    points: z.boolean(),
    /** Whether points can be taken back in this session. */
    takes: z.boolean(),
    places: z.array(placeSchema),
  }),
  z.strictObject({ kind: z.literal("done"), press }),
  z.strictObject({ kind: z.literal("refused"), press, why: z.enum(pocketRefusals) }),
]);
export type ToSeat = z.infer<typeof toSeatSchema>;

/**
 * What a device said, or null when it is not a message of ours.
 *
 * Example: readFromSeat('{"kind":"alive"}') // { kind: "alive" }
 */
export function readFromSeat(text: string): FromSeat | null {
  if (text.length > longestSeatMessageBytes) return null;
  let said: unknown;
  try {
    said = JSON.parse(text);
  } catch {
    return null;
  }
  const read = fromSeatSchema.safeParse(said);
  if (!read.success) return null;
  if (read.data.kind === "hello") {
    const code = typedCode(read.data.code);
    return code === null ? null : { kind: "hello", code };
  }
  return read.data;
}
