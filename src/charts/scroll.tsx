import type { ReactNode } from "react";
import "./figure.css";

interface ScrollProps {
  /** Names the place to a screen reader. */
  readonly label: string;
  /** In place of the usual look, which is that of a chart's table. */
  readonly className?: string;
  readonly children: ReactNode;
}

/** A place in which something wide or long can be scrolled, with keys too. */
export function Scroll({ label, className = "figure-scroll", children }: ScrollProps) {
  return (
    // The rule takes a place that can be focused for one that wants a press. This one wants the arrow keys, which
    // scroll it only while it has the focus (WCAG 2.2, 2.1.1), and not every browser focuses it by itself.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className={className} aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
