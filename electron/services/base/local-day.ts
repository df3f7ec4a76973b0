/** The school's calendar day, YYYY-MM-DD, at a wall-clock moment and its zone offset. */
export function localDay(wallMs: number, offsetMinutes: number): string {
  return new Date(wallMs + offsetMinutes * 60_000).toISOString().slice(0, 10);
}
