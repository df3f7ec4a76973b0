// A spreadsheet takes a field that begins with one of these for a formula and runs it: a student called
// "=2+5" would show as 7. Which characters: common practice (OWASP, "CSV Injection").
const formula = /^'*[=+\-@\t\r]/;
const guarded = /^''*[=+\-@\t\r]/;
const needsQuotes = /[",\r\n]|^\s|\s$/;

/**
 * One field of a CSV file (RFC 4180): in quotation marks where it must be. A text that a spreadsheet would
 * take for a formula gets an apostrophe in front, as does one that has apostrophes before such a
 * character already, so that `withoutGuard` gives every text back.
 */
export function csvField(text: string): string {
  const safe = formula.test(text) ? `'${text}` : text;
  return needsQuotes.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** The text of a field that `csvField` wrote, after the quotation marks are gone. */
export function withoutGuard(text: string): string {
  return guarded.test(text) ? text.slice(1) : text;
}

/** Records as a CSV file: fields guarded and quoted, each line ended by CR and LF. */
export function csvText(records: readonly (readonly string[])[]): string {
  return records.map((fields) => `${fields.map(csvField).join(",")}\r\n`).join("");
}
