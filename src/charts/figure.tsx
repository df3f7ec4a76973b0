import { type PlotOptions, plot } from "@observablehq/plot";
import { type ReactNode, useId, useLayoutEffect, useRef, useState } from "react";
import { More } from "../parts/more.tsx";
import { useSay } from "../text/text.tsx";
import { type DrawnPoint, PointReader, type ReadablePoint } from "./point-reader.tsx";
import { SaveButtons, type SaveChart } from "./save-buttons.tsx";
import { Scroll } from "./scroll.tsx";
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
  /** Points that can be read one by one with keys or pointer, in order of time. */
  points?: readonly ReadablePoint[];
  /** Choices about the drawing, between title and chart. */
  controls?: ReactNode;
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

type Chart = ReturnType<typeof plot>;

/** Draws one chart as an SVG element that a strict content policy allows. */
function drawSvg(options: PlotOptions): Chart {
  const chart = plot({ className: "chart", style: { background: "transparent" }, ...options });
  // The library's own inline style is forbidden by our content policy; figure.css holds those rules.
  for (const style of chart.querySelectorAll("style")) style.remove();
  chart.setAttribute("aria-hidden", "true");
  return chart;
}

/** Where the chart's scales put each point. */
function placePoints(chart: Chart, points: readonly ReadablePoint[]): DrawnPoint[] {
  const x = chart.scale("x");
  const y = chart.scale("y");
  return points.map((point) => ({
    ...point,
    left: Number(x?.apply(point.x)),
    top: Number(y?.apply(point.y)),
  }));
}

/**
 * A chart as a journal would print it: drawn, told in a sentence, given as a table and read point by
 * point, so that nobody depends on seeing it. It can be saved as a drawing or as a picture.
 */
export function Figure<Row>(props: FigureProps<Row>) {
  const { title, summary, draw, drawnFrom, rows, columns, rowKey, hideTitle, controls } = props;
  const say = useSay();
  const titleId = useId();
  const summaryId = useId();
  const place = useRef<HTMLDivElement>(null);
  const width = useWidth(place);
  const [drawn, setDrawn] = useState<readonly DrawnPoint[]>([]);

  // `draw` is a new function at each render of the caller, and a chart is costly to draw. So the caller names what
  // the drawing is made from; `draw` and the points come from just that, and are not watched by themselves.
  const newest = useRef({ draw, points: props.points });
  newest.current = { draw, points: props.points };
  useLayoutEffect(() => {
    if (width <= 0) return;
    const chart = drawSvg(newest.current.draw(width));
    place.current?.replaceChildren(chart);
    setDrawn(placePoints(chart, newest.current.points ?? []));
  }, [width, ...drawnFrom]);

  const save = (how: SaveChart) => {
    const svg = place.current?.querySelector("svg");
    return svg instanceof SVGSVGElement ? how(svg, { title, summary }) : undefined;
  };
  const drawing = <div ref={place} className="figure-drawing" />;

  return (
    <figure className="figure" aria-labelledby={titleId} aria-describedby={summaryId}>
      <figcaption>
        <span id={titleId} className={hideTitle ? "only-for-readers" : "figure-title"}>
          {title}
        </span>
      </figcaption>
      {controls}
      {props.points === undefined ? (
        drawing
      ) : (
        <PointReader label={title} points={drawn}>
          {drawing}
        </PointReader>
      )}
      <p id={summaryId} className="figure-summary">
        {summary}
      </p>
      <div className="figure-foot">
        <More className="figure-table" label={say("chart.asTable")}>
          <Scroll label={say("chart.tableOf", { title })}>
            <Rows rows={rows} columns={columns} rowKey={rowKey} title={title} />
          </Scroll>
        </More>
        <SaveButtons what={title} onSave={save} />
      </div>
    </figure>
  );
}

/** The numbers behind a chart. */
function Rows<Row>(props: Pick<FigureProps<Row>, "rows" | "columns" | "rowKey" | "title">) {
  return (
    <table aria-label={props.title}>
      <thead>
        <tr>
          {props.columns.map((column) => (
            <th key={column.label} scope="col">
              {column.label}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {props.rows.map((row) => (
          <tr key={props.rowKey(row)}>
            {props.columns.map((column, place) =>
              place === 0 ? (
                <th key={column.label} scope="row">
                  {column.cell(row)}
                </th>
              ) : (
                <td key={column.label}>{column.cell(row)}</td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
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
