/**
 * An unknown failure as a log may have it: its kind and where it came from. The message stays out, because
 * it could quote a name or a note.
 */
export function withoutWords(error: unknown): string {
  if (!(error instanceof Error)) return "Failure";
  const frames = (error.stack ?? "").split("\n").filter((line) => /^\s+at /.test(line));
  return [error.name, ...frames.slice(0, 6)].join("\n");
}
