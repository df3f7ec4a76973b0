/** Shorter names are initials: they name nobody to others, and taking them out would maim notes. */
const shortestName = 3;
const blank = "…";

/** A text with a student's name blanked wherever it stands as a word of its own. */
export function withoutName(text: string, name: string): string {
  if (name.length < shortestName) return text;
  const word = new RegExp(`(?<![\\p{L}\\p{N}])${escaped(name)}(?![\\p{L}\\p{N}])`, "gu");
  return text.replace(word, blank);
}

const escaped = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&");
