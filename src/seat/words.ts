import english from "../text/en/seat-page.json";
import spanish from "../text/es/seat-page.json";

export type SeatWordId = keyof typeof english;
export type SeatLanguage = "en" | "es";

let language: SeatLanguage = navigator.language.slice(0, 2) === "es" ? "es" : "en";

/** The language of this device's seat; until it is known, that of the browser. */
export function speak(chosen: SeatLanguage): void {
  language = chosen;
  document.documentElement.lang = chosen;
}

/** A message in the seat's language, with `{name}` replaced by its value. */
export function say(
  id: SeatWordId,
  values: Readonly<Record<string, string | number>> = {},
): string {
  const text = (language === "es" ? spanish : english)[id];
  return text.replace(/\{(\w+)\}/g, (_, name: string) => String(values[name]));
}
