import { isApart } from "../../shared/calendar/days-off.ts";
import type { GlanceSeries } from "../../shared/reading/group-reading.ts";
import { ink } from "./figure.tsx";

interface SmallMultipleProps {
  readonly series: GlanceSeries;
  /** First and last moment of the shared axis, in days since 1970. */
  readonly from: number;
  readonly to: number;
  /** Null when it is not known yet. */
  readonly goal: number | null;
  /** Moments at which a phase begins, as condition lines. */
  readonly phaseStarts: readonly number[];
  /** Points farther apart than this many days, days off not counted, are not joined. */
  readonly longestJoined: number;
  /** As `dayNumbers` gives them. */
  readonly off: ReadonlySet<number>;
}

const width = 240;
const height = 84;
const top = 6;
const bottom = height - 8;
const left = 4;
const right = width - 4;

/**
 * One student's rates, small: the same scale for all, 0 at the foot and 100 % at the top. Drawn as three
 * paths rather than by the plotting library, so that a class of thirty-six is there at once.
 */
export function SmallMultiple(props: SmallMultipleProps) {
  const { series, from, to, goal, phaseStarts, longestJoined, off } = props;
  const x = (at: number) => left + ((right - left) * (at - from)) / Math.max(1e-9, to - from);
  const y = (rate: number) => bottom - (bottom - top) * rate;
  const starts = phaseStarts.filter((start) => start > from && start < to);
  return (
    <svg viewBox={`0 0 ${width} ${height}`} className="glance-drawing" aria-hidden="true">
      {goal === null ? null : (
        <line
          x1={left}
          x2={right}
          y1={y(goal)}
          y2={y(goal)}
          stroke={ink.lake}
          strokeDasharray="6 3 2 3"
        />
      )}
      {starts.map((start) => (
        <line
          key={start}
          x1={x(start)}
          x2={x(start)}
          y1={top}
          y2={bottom}
          stroke={ink.soft}
          strokeDasharray="4 3"
        />
      ))}
      <path
        d={joined(series, { from, to, longestJoined, phaseStarts, off }, x, y)}
        fill="none"
        stroke={ink.text}
        strokeWidth="1"
      />
      <path d={dots(series, from, to, x, y)} fill={ink.text} />
      <path
        d={`M${left},${y(1)}H${left - 3}M${left},${y(1)}V${y(0)}H${right}`}
        fill="none"
        stroke={ink.text}
      />
    </svg>
  );
}

type Scale = (value: number) => number;

function joined(
  { at, rate }: GlanceSeries,
  limits: Pick<SmallMultipleProps, "from" | "to" | "longestJoined" | "phaseStarts" | "off">,
  x: Scale,
  y: Scale,
): string {
  let path = "";
  let before: number | null = null;
  for (const [index, moment] of at.entries()) {
    if (moment < limits.from || moment > limits.to) continue;
    const breaks =
      before === null ||
      isApart(before, moment, limits.longestJoined, limits.off) ||
      limits.phaseStarts.some((start) => before !== null && start > before && start <= moment);
    path += `${breaks ? "M" : "L"}${x(moment).toFixed(1)},${y(rate[index] ?? 0).toFixed(1)}`;
    before = moment;
  }
  return path;
}

function dots({ at, rate }: GlanceSeries, from: number, to: number, x: Scale, y: Scale): string {
  const shown = [...at.entries()].filter(([, moment]) => moment >= from && moment <= to);
  const r = shown.length > 70 ? 1.1 : 1.9;
  return shown
    .map(([index, moment]) => {
      const cx = (x(moment) - r).toFixed(1);
      const cy = y(rate[index] ?? 0).toFixed(1);
      return `M${cx},${cy}a${r},${r} 0 1,0 ${2 * r},0a${r},${r} 0 1,0 ${-2 * r},0`;
    })
    .join("");
}
