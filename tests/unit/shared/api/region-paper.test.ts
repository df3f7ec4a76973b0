import { expect, it } from "vitest";
import { regionPaper } from "../../../../shared/api/region-paper.ts";

// ISO 216 is the standard of nearly all countries; Letter is used in most of North and Central America and
// some others (Unicode CLDR, paperSize).
it.each([
  ["en-US", "Letter"],
  ["en-CA", "Letter"],
  ["es-MX", "Letter"],
  ["es-CO", "Letter"],
  ["es-PR", "Letter"],
  ["es-ES", "A4"],
  ["es-AR", "A4"],
  ["es-419", "A4"],
  ["en-GB", "A4"],
  ["en-AU", "A4"],
  // A language alone: most who speak it live there.
  ["en", "Letter"],
  ["es", "A4"],
  ["", "A4"],
  ["not a tag", "A4"],
])("%s prints on %s", (language, paper) => {
  expect(regionPaper(language)).toBe(paper);
});
