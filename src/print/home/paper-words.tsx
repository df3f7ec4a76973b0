import type { ReactNode } from "react";
import type { AgreedPage } from "../../../shared/home/agreed.ts";
import { useSettings } from "../../api/queries.ts";
import type { Language } from "../../text/catalogue.ts";
import { TextProvider } from "../../text/text.tsx";

/** Everything below speaks the language of a student's papers, whatever the app itself speaks. */
export function PaperWords({ language, children }: { language: Language; children: ReactNode }) {
  return (
    <TextProvider language={language}>
      <div lang={language}>{children}</div>
    </TextProvider>
  );
}

/** The language of a student's papers: their own, else the app's. */
export function usePaperLanguage(): (agreed: Pick<AgreedPage, "language">) => Language {
  const own = useSettings()?.language ?? "en";
  return ({ language }) => language ?? own;
}
