/** The two papers of the world's schools. */
export type Paper = "A4" | "Letter";

/**
 * Territories that print on Letter; everybody else has A4. Source: Unicode CLDR, supplemental measurement
 * data, paperSize US-Letter [from memory].
 */
const letter = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE".split(" ");

/**
 * The paper of a region, as a browser's language names it; a language alone stands for where most who speak
 * it live.
 *
 * Example: regionPaper("es-MX") // "Letter"
 *
 * @param language BCP 47 tag, such as `navigator.language`
 */
export function regionPaper(language: string): Paper {
  try {
    const { region } = new Intl.Locale(language).maximize();
    return region !== undefined && letter.includes(region) ? "Letter" : "A4";
  } catch {
    // No tag at all.
    return "A4";
  }
}
