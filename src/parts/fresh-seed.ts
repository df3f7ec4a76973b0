/** No letter or figure that reads like another one: a seed is copied by hand from paper. */
const characters = "abcdefghjkmnpqrstuvwxyz23456789";
const length = 8;

/** A seed that is easy to read aloud; it only has to differ from the last one. */
export function freshSeed(): string {
  const picks = crypto.getRandomValues(new Uint32Array(length));
  return [...picks].map((pick) => characters[pick % characters.length]).join("");
}
