import { TestRunner } from "vitest";

/**
 * How many session seconds a real one has in this try of the test. A machine too busy for the first try, on which
 * cues come faster than a journey can press, has twice the time at each further one.
 */
export function paceOf(speed: number): number {
  const test = TestRunner.getCurrentTest();
  return speed / 2 ** (test?.result?.retryCount ?? 0);
}

/** The app's argument for it. */
export function paced(speed: number): ["--speed", string] {
  return ["--speed", String(paceOf(speed))];
}
