import type { languages } from "../../shared/api/app.ts";
import enCommon from "./en/common.json";
import enToday from "./en/today.json";
import enGroups from "./en/groups.json";
import enPlan from "./en/plan.json";
import enSettings from "./en/settings.json";
import esCommon from "./es/common.json";
import esToday from "./es/today.json";
import esGroups from "./es/groups.json";
import esPlan from "./es/plan.json";
import esSettings from "./es/settings.json";

// One file a screen and language; a screen's author adds its two files here.
const english = { ...enCommon, ...enToday, ...enGroups, ...enPlan, ...enSettings };

/** The id of a message; English decides which there are. */
export type MessageId = keyof typeof english;
export type Language = (typeof languages)[number];

const spanish: Record<MessageId, string> = {
  ...esCommon,
  ...esToday,
  ...esGroups,
  ...esPlan,
  ...esSettings,
};

/** All messages of a language, as ICU message text by id. */
export const catalogues: Record<Language, Record<MessageId, string>> = {
  en: english,
  es: spanish,
};
