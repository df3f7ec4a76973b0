import { createContext, type ReactNode, useContext } from "react";
import type { Language } from "../text/catalogue.ts";
import { useSay } from "../text/text.tsx";
import type { Paper } from "./paper.ts";

export const PaperContext = createContext<Paper>("A4");

interface SheetProps {
  /** From 1. */
  number: number;
  count: number;
  /** `cards` leaves a narrow edge, `text` a margin to hold the sheet by. */
  kind: "cards" | "text";
  /** Of what is printed, where it is not the app's. */
  language?: Language;
  children: ReactNode;
}

/** One sheet of paper in its real size, on the screen and in the printer. */
export function Sheet({ number, count, kind, language, children }: SheetProps) {
  const say = useSay();
  const paper = useContext(PaperContext);
  return (
    <section
      className={`sheet sheet-${paper === "A4" ? "a4" : "letter"} sheet-${kind}`}
      lang={language}
      aria-label={say("print.sheet", { number, count })}
    >
      {children}
    </section>
  );
}
