import type { PracticeExamples } from "../../shared/roster/practice-examples.ts";
import { shuffled } from "../../shared/schedule/balanced.ts";
import { randomStream } from "../../shared/schedule/stream.ts";

/** One sentence to judge, and whether it is working. */
export interface PracticeExample {
  readonly text: string;
  readonly isWorking: boolean;
}

/** How long an example is shown as a question, then with its answer, in seconds of session time. */
export const questionSeconds = 14;
export const answerSeconds = 6;

/** Examples and non-examples mixed, in an order drawn from the session's own stream "examples". */
export function exampleOrder(
  { working, notWorking }: PracticeExamples,
  seed: string,
): PracticeExample[] {
  const all = [
    ...working.map((text) => ({ text, isWorking: true })),
    ...notWorking.map((text) => ({ text, isWorking: false })),
  ];
  return shuffled(all, randomStream(seed, "examples"));
}

/** Which example is on show, and whether its answer is; null when there are none. */
export function exampleAt(
  examples: readonly PracticeExample[],
  sessionSeconds: number,
): { readonly example: PracticeExample; readonly isAnswered: boolean } | null {
  const turn = questionSeconds + answerSeconds;
  const example = examples[Math.floor(sessionSeconds / turn) % examples.length];
  if (example === undefined) return null;
  return { example, isAnswered: sessionSeconds % turn >= questionSeconds };
}
