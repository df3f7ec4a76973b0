import { randomStream } from "../schedule/stream.ts";

/** Capitals and figures that no other one is mistaken for; without vowels no code becomes a word. */
const characters = "CDFHJKMNPRTVWXY34789";
const length = 4;

/** What tells a stack of cards from another one. */
export interface CardStack {
  readonly groupId: string;
  /** The plan's name: a session keeps it when the plan is changed or laid aside later. */
  readonly planName: string;
  /** The school-local day `YYYY-MM-DD` printed on the cards; null when the day is written by hand. */
  readonly day: string | null;
  /** Which session of that day under that plan, from 1; says nothing when the day is left open. */
  readonly place: number;
}

/**
 * The short code printed on every card of one stack, such as "K7MH", so that cards of another day, plan
 * or group, and of the morning or afternoon, are noticed before they are typed in. It tells nothing about
 * students and nothing about when cues come. Two stacks share a code with a chance of 1 in 160,000.
 *
 * Cards may be printed before their session has begun, so nothing that is only known then goes into the
 * code: it is the order of the day that tells two sessions apart. The first of a day has the code that
 * cards had before the order was part of it, so that older stacks keep theirs.
 */
export function sessionCode({ groupId, planName, day, place }: CardStack): string {
  const facts = [groupId, planName, day, ...(day === null || place === 1 ? [] : [place])];
  const stream = randomStream(JSON.stringify(facts), "session-code");
  return Array.from({ length }, () => characters[Math.floor(stream() * characters.length)]).join(
    "",
  );
}
