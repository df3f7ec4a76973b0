/** Set by the bootstrap script: when the whole start began, in ms since 1970 UTC. */
const beginning = "PEBBLECHIME_STARTED_MS";

/**
 * Prints, when asked to, the milliseconds from the beginning of the start up to each step, once a step.
 */
export function timing(wanted: boolean): (step: string) => void {
  if (!wanted) return () => undefined;
  const given = Number(process.env[beginning]);
  const startedMs = given > 0 ? given : performance.timeOrigin;
  const told = new Set<string>();
  return (step) => {
    if (told.has(step)) return;
    told.add(step);
    process.stdout.write(
      `timing  ${String(Date.now() - Math.round(startedMs)).padStart(6)} ms  ${step}\n`,
    );
  };
}
