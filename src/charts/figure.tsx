import { type PlotOptions, plot } from "@observablehq/plot";
import { type ReactNode, useId, useLayoutEffect, useRef, useState } from "react";
import { useSay } from "../text/text.tsx";
import "./figure.css";

export interface TableColumn<Row> {
  label: string;
  cell: (row: Row) => ReactNode;
}

interface FigureProps<Row> {
  /** What the chart is, as its heading. */
  title: string;
  /** The same finding in a sentence: what a reader of the chart would take from it. */
  summary: string;
  /** The chart for a width in CSS pixels; see `ink` for its colours. */
  draw: (widthPx: number) => PlotOptions;
  /** Changes when the drawing must be made again. */
  drawnFrom: readonly unknown[];
  /** The numbers behind it. */
  rows: readonly Row[];
  columns: readonly TableColumn<Row>[];
  rowKey: (row: Row) => string;
  hideTitle?: boolean;
}

/** The notebook's colours for charts; custom properties, so that they follow the theme. */
export const ink = {
  text: "var(--ink)",
  soft: "var(--ink-soft)",
  rule: "var(--rule)",
  lake: "var(--lake)",
  lakeWash: "var(--lake-wash)",
  clay: "var(--clay)",
  clayWash: "var(--clay-wash)",
  paper: "var(--leaf)",
} as const;

/** Draws one chart as an SVG element that a strict content policy allows. */
function drawSvg(options: PlotOptions): Element {
  const chart = plot({ className: "chart", style: { background: "transparent" }, ...options });
  // The library's own inline style is forbidden by our content policy; figure.css holds those rules.
  for (const style of chart.querySelectorAll("style")) style.remove();
  chart.setAttribute("aria-hidden", "true");
  return chart;
}

/**
 * A chart as a journal would print it: drawn, told in a sentence, and given as a table, so that nobody
 * depends on seeing it.
 */
export function Figure<Row>(props: FigureProps<Row>) {
  const { title, summary, draw, drawnFrom, rows, columns, rowKey, hideTitle } = props;
  const say = useSay();
  const titleId = useId();
  const summaryId = useId();
  const place = useRef<HTMLDivElement>(null);
  const width = useWidth(place);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the caller names what the drawing depends on
  useLayoutEffect(() => {
    if (width > 0) place.current?.replaceChildren(drawSvg(draw(width)));
  }, [width, ...drawnFrom]);

  return (
    <figure className="figure" aria-labelledby={titleId} aria-describedby={summaryId}>
      <figcaption>
        <span id={titleId} className={hideTitle ? "only-for-readers" : "figure-title"}>
          {title}
        </span>
      </figcaption>
      <div ref={place} className="figure-drawing" />
      <p id={summaryId} className="figure-summary">
        {summary}
      </p>
      <details className="figure-table">
        <summary>{say("chart.asTable")}</summary>
        <div className="figure-scroll">
          <table>
            <thead>
              <tr>
                {columns.map((column) => (
                  <th key={column.label} scope="col">
                    {column.label}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={rowKey(row)}>
                  {columns.map((column) => (
                    <td key={column.label}>{column.cell(row)}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </details>
    </figure>
  );
}

function useWidth(place: React.RefObject<HTMLDivElement | null>): number {
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = place.current;
    if (element === null) return;
    const measure = () => setWidth(Math.round(element.clientWidth));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [place]);
  return width;
}
