import { rect, ruleX, ruleY } from "@observablehq/plot";
import type { WeekRate } from "../../shared/analysis/weeks.ts";
import { dayNumber } from "../../shared/calendar/calendar.ts";
import type { Span } from "../../shared/reading/span.ts";
import { useVoice } from "../words/use-voice.ts";
import { Figure, ink } from "./figure.tsx";
import { axisDate, useDayAxis } from "./use-day-axis.ts";

/** A school week with marks, Monday to Friday. */
interface WeekBar {
  readonly start: string;
  readonly monday: number;
  readonly rate: number;
  readonly lower: number;
  readonly upper: number;
  readonly sessions: number;
  readonly marks: number;
}

/** On-task rate by school week, each with an interval that knows how much sessions differ. */
export function WeeksFigure({ weeks, span }: { weeks: readonly WeekRate[]; span: Span }) {
  const { say, formats } = useVoice();
  const dayAxis = useDayAxis();
  const bars = weeks
    .filter(({ start, end }) => end >= span.first && start <= span.last)
    .flatMap(barOf);
  // Whole weeks, with a little air, so that no bar is cut.
  const from = Math.min(dayNumber(span.first), bars[0]?.monday ?? dayNumber(span.last)) - 1;
  const to = Math.max(dayNumber(span.last), (bars.at(-1)?.monday ?? 0) + 5) + 1;
  const { axis, locale } = dayAxis(from, to);
  const isDense = bars.length > 90;
  const x1 = ({ monday }: WeekBar) => axisDate(monday);
  const middle = ({ monday }: WeekBar) => axisDate(monday + 2.5);
  const wordsOf = (bar: WeekBar) =>
    say("weeks.point", {
      day: formats.shortDay(bar.start),
      rate: formats.percent(bar.rate),
      low: formats.percent(bar.lower),
      high: formats.percent(bar.upper),
      sessions: bar.sessions,
    });
  const newest = bars.at(-1);

  return (
    <Figure
      title={say("weeks.title")}
      summary={newest === undefined ? "" : wordsOf(newest)}
      drawnFrom={[weeks, span.first, span.last, locale]}
      points={bars.map((bar) => ({
        key: bar.start,
        x: middle(bar),
        y: bar.rate,
        words: wordsOf(bar),
      }))}
      draw={(width) => ({
        width,
        height: 210,
        marginLeft: 52,
        marginRight: 46,
        marginTop: 14,
        marginBottom: 34,
        x: axis(width),
        y: { domain: [0, 1], label: null, tickFormat: formats.percent, ticks: 5 },
        marks: [
          rect(bars, {
            x1,
            x2: ({ monday }: WeekBar) => axisDate(monday + 5),
            y1: 0,
            y2: "rate",
            fill: ink.lakeWash,
            // Years of weeks: outlines would close up to one dark block.
            stroke: isDense ? "none" : ink.lake,
          }),
          ruleX(bars, {
            x: middle,
            y1: "lower",
            y2: "upper",
            stroke: ink.text,
            strokeWidth: isDense ? 0.5 : 1.5,
          }),
          ruleY([0], { stroke: ink.text }),
          ruleX([axisDate(from)], { stroke: ink.text }),
        ],
      })}
      rows={bars}
      rowKey={({ start }) => start}
      columns={[
        { label: say("weeks.week"), cell: ({ start }) => formats.day(start) },
        { label: say("graph.rate"), cell: ({ rate }) => formats.percent(rate) },
        {
          label: say("graph.interval"),
          cell: ({ lower, upper }) => `${formats.percent(lower)} – ${formats.percent(upper)}`,
        },
        { label: say("weeks.sessions"), cell: ({ sessions }) => formats.number(sessions) },
        { label: say("graph.marks"), cell: ({ marks }) => formats.number(marks) },
      ]}
    />
  );
}

function barOf({ start, pooled }: WeekRate): WeekBar[] {
  if (pooled.kind === "not-enough") return [];
  const { rate, interval, sessions, marks } = pooled;
  return [{ start, monday: dayNumber(start), rate, ...interval, sessions, marks }];
}
