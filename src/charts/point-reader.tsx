import { type KeyboardEvent, type PointerEvent, type ReactNode, useId, useState } from "react";
import { useSay } from "../text/text.tsx";

/** One point of a chart that can be read by itself. */
export interface ReadablePoint {
  /** Stands for the point when the chart is drawn again. */
  readonly key: string;
  /** Where it lies, in the units of the chart's scales. */
  readonly x: number | Date;
  readonly y: number;
  /** All it says, in words. */
  readonly words: string;
}

/** Where a point was drawn, in CSS pixels from the drawing's top left corner. */
export interface DrawnPoint extends ReadablePoint {
  readonly left: number;
  readonly top: number;
}

interface PointReaderProps {
  /** Names what is read, such as the chart's title. */
  label: string;
  /** In order of time; with none there is nothing to read. */
  points: readonly DrawnPoint[];
  children: ReactNode;
}

/**
 * A chart read point by point: with left and right, home and end, or by pointing at it. To a screen
 * reader it is a slider whose value is the point's sentence, so each step is announced.
 */
export function PointReader({ label, points, children }: PointReaderProps) {
  const say = useSay();
  const hintId = useId();
  const [key, setKey] = useState<string | null>(null);
  const found = points.findIndex((point) => point.key === key);
  const at = found < 0 ? points.length - 1 : found;
  const current = points[at];
  const isReading = key !== null && current !== undefined;
  const go = (to: number) => {
    const point = points[Math.min(points.length - 1, Math.max(0, to))];
    if (point !== undefined) setKey(point.key);
  };

  const onKeyDown = (event: KeyboardEvent) => {
    const to = stepOf(event.key, at, points.length);
    if (event.key === "Escape") setKey(null);
    if (to === null) return;
    event.preventDefault();
    go(to);
  };
  const onPointerMove = (event: PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const near = nearest(points, event.clientX - box.left, event.clientY - box.top);
    if (near !== undefined) setKey(near.key);
  };

  return (
    <>
      {/* The same element with and without points, so that the drawing in it stays. */}
      {points.length === 0 ? (
        <div className="figure-reader">{children}</div>
      ) : (
        <div
          className="figure-reader"
          role="slider"
          tabIndex={0}
          aria-label={say("chart.read", { what: label })}
          aria-describedby={hintId}
          aria-valuemin={1}
          aria-valuemax={points.length}
          aria-valuenow={at + 1}
          aria-valuetext={current?.words ?? ""}
          onKeyDown={onKeyDown}
          onFocus={() => go(at)}
          onBlur={() => setKey(null)}
          onPointerMove={onPointerMove}
          onPointerLeave={(event) => {
            if (document.activeElement !== event.currentTarget) setKey(null);
          }}
        >
          {children}
          {isReading ? (
            <span
              className="figure-reader-ring"
              style={{ left: `${current.left}px`, top: `${current.top}px` }}
            />
          ) : null}
        </div>
      )}
      <p className="figure-reading" aria-hidden="true">
        {isReading ? current.words : points.length > 0 ? say("chart.readHint") : ""}
      </p>
      <span id={hintId} hidden>
        {say("chart.readHint")}
      </span>
    </>
  );
}

/** Where a key leads among `count` points; null for keys that do not lead anywhere. */
export function stepOf(key: string, at: number, count: number): number | null {
  switch (key) {
    case "ArrowLeft":
    case "ArrowDown":
      return Math.max(0, at - 1);
    case "ArrowRight":
    case "ArrowUp":
      return Math.min(count - 1, at + 1);
    case "PageDown":
      return Math.max(0, at - 10);
    case "PageUp":
      return Math.min(count - 1, at + 10);
    case "Home":
      return 0;
    case "End":
      return count - 1;
    default:
      return null;
  }
}

function nearest(points: readonly DrawnPoint[], left: number, top: number): DrawnPoint | undefined {
  let best: DrawnPoint | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const point of points) {
    // Across counts more than up and down: a reader follows time.
    const distance = (2 * (point.left - left)) ** 2 + (point.top - top) ** 2;
    if (distance < least) [best, least] = [point, distance];
  }
  return best;
}
