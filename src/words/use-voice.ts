import { useFormats, useSay } from "../text/text.tsx";
import type { Voice } from "./words.ts";

/** The words and formats of the reader's language, together. */
export function useVoice(): Voice {
  return { say: useSay(), formats: useFormats() };
}
