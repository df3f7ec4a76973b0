/**
 * The same for two names that a class would take for one: capitals, kinds of spaces and ways of writing
 * an accent do not tell people apart. The app, imports and the command line all compare names by it.
 *
 * Example: nameKey(" ANA  Reed") === nameKey("Ana Reed") // true
 */
export const nameKey = (name: string): string =>
  name.normalize("NFKC").replace(/\s+/g, " ").trim().toLocaleLowerCase("en");
