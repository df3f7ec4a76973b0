import type { ReactNode } from "react";
import "./figure.css";

/** A place in which something wide or long can be scrolled, with keys too. */
export function Scroll({ label, children }: { label: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys scroll it only while it has the focus
    <section className="figure-scroll" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
