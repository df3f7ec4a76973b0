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
}

/**
 * The short code printed on every card of one stack, such as "K7MH", so that cards of another day, plan
 * or group are noticed before they are typed in. It tells nothing about students and nothing about when
 * cues come. Two stacks share a code with a chance of 1 in 160,000.
 */
export function sessionCode({ groupId, planName, day }: CardStack): string {
  const stream = randomStream(JSON.stringify([groupId, planName, day]), "session-code");
  return Array.from({ length }, () => characters[Math.floor(stream() * characters.length)]).join(
    "",
  );
}
