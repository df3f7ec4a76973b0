import type { languages } from "../../shared/api/app.ts";
import enCommon from "./en/common.json";
import esCommon from "./es/common.json";

// One file a screen and language; a screen's author adds its two files here.
const english = { ...enCommon };

/** The id of a message; English decides which there are. */
export type MessageId = keyof typeof english;
export type Language = (typeof languages)[number];

const spanish: Record<MessageId, string> = { ...esCommon };

/** All messages of a language, as ICU message text by id. */
export const catalogues: Record<Language, Record<MessageId, string>> = {
  en: english,
  es: spanish,
};
