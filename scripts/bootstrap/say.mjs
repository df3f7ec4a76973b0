// What the bootstrap scripts print: plain sentences, and with --timing how long each step took.

const startedMs = Date.now();

/** Passed on to the app, which goes on counting from here. */
export const startedEnvironment = { PEBBLECHIME_STARTED_MS: String(startedMs) };

export function say(sentence) {
  process.stdout.write(`${sentence}\n`);
}

/** Ends with one sentence that says what to do. */
export function stop(sentence) {
  process.stderr.write(`${sentence}\n`);
  process.exit(1);
}

/** @returns a function that prints the milliseconds from the beginning up to the step it names */
export function timing(wanted) {
  if (!wanted) return () => undefined;
  return (step) => say(`timing  ${String(Date.now() - startedMs).padStart(6)} ms  ${step}`);
}
