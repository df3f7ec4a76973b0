/** Shorter names are initials: they name nobody to others, and taking them out would maim notes. */
const shortestName = 3;
const blank = "…";

/**
 * A text with a student's name blanked wherever it stands as a word of its own. An accent may be a letter's
 * own or a mark after it, as some keyboards write it, and any spaces part a first name from a last.
 */
export function withoutName(text: string, name: string): string {
  if (name.length < shortestName) return text;
  const spellings = new Set(["NFC", "NFD"].map((form) => spelled(name.normalize(form))));
  const word = new RegExp(
    `(?<![\\p{L}\\p{N}\\p{M}])(?:${[...spellings].join("|")})(?![\\p{L}\\p{N}\\p{M}])`,
    "gu",
  );
  return text.replace(word, blank);
}

/** The name as a pattern that means just its letters. */
const spelled = (name: string): string =>
  name.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&").replace(/\s+/g, "\\s+");
