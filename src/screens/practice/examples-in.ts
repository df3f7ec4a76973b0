import type { PracticeExamples } from "../../../shared/roster/practice-examples.ts";

/** Limits of the saved examples, as the API has them. */
export const mostExamples = 12;
export const longestExample = 200;

/** The sentences in a text, one a line, blank lines left out. */
export function examplesIn(text: string): string[] {
  return text
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== "");
}

/** What is wrong with a list of sentences, or null. */
export function examplesProblem(examples: readonly string[]): "too-many" | "too-long" | null {
  if (examples.length > mostExamples) return "too-many";
  return examples.some((each) => each.length > longestExample) ? "too-long" : null;
}

export const hasExamples = ({ working, notWorking }: PracticeExamples): boolean =>
  working.length + notWorking.length > 0;
