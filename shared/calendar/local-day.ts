/**
 * The calendar day, `YYYY-MM-DD`, at a moment and a place.
 *
 * Example: localDay(Date.UTC(2026, 2, 3, 1), -300) // "2026-03-02"
 *
 * @param wallMs wall clock, milliseconds since 1970 UTC
 * @param offsetMinutes minutes that the place is ahead of UTC
 */
export function localDay(wallMs: number, offsetMinutes: number): string {
  return new Date(wallMs + offsetMinutes * 60_000).toISOString().slice(0, 10);
}
