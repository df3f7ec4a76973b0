/**
 * The names in a pasted list: one a line, or divided by commas, semicolons or tabs. Blank entries and
 * list numbers such as "3." or "3)" are left out, spaces are tidied.
 */
export function namesIn(text: string): string[] {
  return text
    .split(/[\n\r\t,;]+/)
    .map((entry) =>
      entry
        .replace(/^\s*\d+[.)]\s*/, "")
        .replace(/\s+/g, " ")
        .trim(),
    )
    .filter((entry) => entry !== "");
}
