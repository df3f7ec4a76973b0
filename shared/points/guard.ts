/** Why nothing may be taken just now. */
export type TakeRefusal =
  | "points-stopped"
  | "session-not-running"
  | "student-set-aside"
  | "points-too-soon"
  | "points-none-left"
  | "points-two-to-one-day"
  | "points-two-to-one-lately";

/** Time that must lie between two takes from one student, in ms. */
const betweenTakesMs = 10_000;
/** Sessions over which given and taken are compared, beside the day. */
export const sessionsLately = 10;
/** At least this many points are given for one that is taken. */
export const givenForOne = 2;
/** The standing below which the strip warns. Common practice, no source. */
const warnBelow = 3;

/** Points given and taken in a stretch of time; exchanges are neither. */
export interface GivenTaken {
  readonly given: number;
  readonly taken: number;
}

/** All that decides whether points may be taken from a student. */
export interface TakeInputs {
  readonly stoppedToday: boolean;
  /** A seatwork session that is running. */
  readonly running: boolean;
  readonly setAside: boolean;
  /** Since points were last taken from this student, in ms; null when never. */
  readonly sinceLastTakeMs: number | null;
  readonly balance: number;
  readonly today: GivenTaken;
  /** Since the start of the tenth newest seatwork session in which the student took part. */
  readonly lately: GivenTaken;
}

/**
 * Whether so many points may be taken now: null, or the first reason why not.
 *
 * Two points are given for one that is taken, over the day and over the last ten sessions alike, so that
 * yesterday's praise is no license for today. Rewards first: common practice, no source for the numbers.
 *
 * Example: takeRefusal(inputs, 1) // "points-two-to-one-day"
 */
export function takeRefusal(inputs: TakeInputs, amount: number): TakeRefusal | null {
  const { stoppedToday, running, setAside, sinceLastTakeMs, balance, today, lately } = inputs;
  if (stoppedToday) return "points-stopped";
  if (!running) return "session-not-running";
  if (setAside) return "student-set-aside";
  if (sinceLastTakeMs !== null && sinceLastTakeMs < betweenTakesMs) return "points-too-soon";
  if (balance < amount) return "points-none-left";
  if (givenForOne * (today.taken + amount) > today.given) return "points-two-to-one-day";
  if (givenForOne * (lately.taken + amount) > lately.given) return "points-two-to-one-lately";
  return null;
}

/**
 * Whether more was taken than half of what was given, on the day or over the last ten sessions, as a correction that
 * lowers what was given may bring about: nothing is refused then, but more has to be given first, or the newest take
 * taken back.
 *
 * Example: mustGiveFirst({ given: 4, taken: 1, lately: { given: 9, taken: 5 } }) // true
 */
export const mustGiveFirst = (stands: GivenTaken & { readonly lately: GivenTaken }): boolean =>
  [stands, stands.lately].some(({ given, taken }) => givenForOne * taken > given);

/** How many points were given for each one taken: a number, or null when nothing was taken. */
export function standing({ given, taken }: GivenTaken): number | null {
  return taken === 0 ? null : given / taken;
}

/**
 * The lowest standing of several students, for the adult's strip: a group's mean would hide the one child
 * who is losing. Null when nothing was taken from anybody.
 *
 * Example: lowestStanding([{ given: 4, taken: 2 }, { given: 9, taken: 1 }]) // { ratio: 2, warns: true }
 */
export function lowestStanding(
  each: readonly GivenTaken[],
): { readonly ratio: number; readonly warns: boolean } | null {
  const ratios = each.map(standing).filter((ratio) => ratio !== null);
  if (ratios.length === 0) return null;
  const ratio = Math.min(...ratios);
  return { ratio, warns: ratio < warnBelow };
}
