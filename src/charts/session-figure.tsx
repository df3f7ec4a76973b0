import { dot, lineY, link, type Markish, ruleX, ruleY, text } from "@observablehq/plot";
import { dayNumber, dayText } from "../../shared/calendar/calendar.ts";
import type { Phase } from "../../shared/phase/phase.ts";
import type { CriterionPoint, DrawnCriterion } from "../../shared/reading/criterion-lines.ts";
import type { GraphPoint } from "../../shared/reading/graph-points.ts";
import { clipLine, type DrawnLine, type PhaseLines } from "../../shared/reading/phase-lines.ts";
import { isWithin, type Span } from "../../shared/reading/span.ts";
import { useVoice } from "../words/use-voice.ts";
import { type Voice, wordPhase } from "../words/words.ts";
import { Figure, ink } from "./figure.tsx";
import { labelRoom, legendMarks, legendRows, moreRoom } from "./legend.ts";
import type { ReadablePoint } from "./point-reader.tsx";
import { axisDate, useDayAxis } from "./use-day-axis.ts";

const leftPx = 52;

/** What can be laid over the points. */
export interface Overlays {
  readonly level: boolean;
  readonly trend: boolean;
  readonly interval: boolean;
  readonly criterion: boolean;
}

/** What is laid over the points until somebody chooses. */
export const firstOverlays: Overlays = {
  level: true,
  trend: false,
  interval: false,
  criterion: false,
};

interface SessionFigureProps {
  title: string;
  summary: string;
  points: readonly GraphPoint[];
  lines: readonly PhaseLines[];
  criterion: readonly DrawnCriterion[];
  phases: readonly Phase[];
  span: Span;
  overlays: Overlays;
  /** The on-task rate to hold, 0 to 1; null when nobody set one. */
  goal: number | null;
  controls?: React.ReactNode;
}

/**
 * The single-case graph as it is published: one point a session, phases parted by labelled condition
 * lines, points never joined across a phase, a missed session or a holiday; observers' points are a
 * series of their own.
 */
export function SessionFigure(props: SessionFigureProps) {
  const { title, summary, points, lines, criterion, phases, span, overlays, goal } = props;
  const voice = useVoice();
  const { say, formats } = voice;
  const dayAxis = useDayAxis();
  const shown = points.filter(({ day }) => isWithin(day, span));
  const inTime = shown.toSorted((a, b) => a.at - b.at);
  const from = dayNumber(span.first) - 0.5;
  const to = dayNumber(span.last) + 1.5;
  const { axis, locale } = dayAxis(from, to);
  const condition = conditionLines(voice, phases, span, from, to);
  const legend = shown.some(({ source }) => source === "observer") ? say("graph.legend") : "";

  return (
    <Figure
      title={title}
      summary={summary}
      controls={props.controls}
      drawnFrom={[
        points,
        lines,
        criterion,
        phases,
        span.first,
        span.last,
        ...Object.values(overlays),
        goal,
        locale,
      ]}
      points={inTime.map((point) => readable(voice, point))}
      draw={(width) => ({
        width,
        height: 330,
        marginLeft: leftPx,
        marginRight: goal === null ? 46 : Math.max(46, labelRoom(say("graph.goal"))),
        marginTop: 62 + moreRoom(legendRows(legend, width - leftPx)),
        marginBottom: 34,
        x: axis(width),
        y: { domain: [0, 1], label: null, tickFormat: formats.percent, ticks: 5 },
        marks: [
          ruleY([0], { stroke: ink.text }),
          ruleX([axisDate(from)], { stroke: ink.text }),
          ...legendMarks(legendRows(legend, width - leftPx), 54),
          goalMarks(goal, say("graph.goal"), to),
          conditionMarks(condition, width),
          overlays.interval ? intervalMarks(shown) : null,
          overlays.level ? levelMarks(lines, span) : null,
          overlays.trend ? trendMarks(lines, span) : null,
          overlays.criterion ? criterion.map((pair) => criterionMarks(pair, span)) : null,
          pointMarks(shown),
        ],
      })}
      rows={inTime}
      rowKey={(point) => `${point.source} ${point.sessionId}`}
      columns={[
        { label: say("graph.day"), cell: (point) => formats.day(point.day) },
        { label: say("graph.source"), cell: (point) => say(`graph.by.${point.source}`) },
        { label: say("graph.rate"), cell: (point) => formats.percent(point.rate) },
        {
          label: say("graph.interval"),
          cell: ({ interval }) =>
            `${formats.percent(interval.lower)} – ${formats.percent(interval.upper)}`,
        },
        { label: say("graph.on"), cell: (point) => formats.number(point.on) },
        { label: say("graph.marks"), cell: (point) => formats.number(point.marks) },
        { label: say("graph.cues"), cell: (point) => formats.number(point.cues) },
      ]}
    />
  );
}

function readable({ say, formats }: Voice, point: GraphPoint): ReadablePoint {
  return {
    key: `${point.source} ${point.sessionId}`,
    x: axisDate(point.at),
    y: point.rate,
    words: say("graph.point", {
      day: formats.day(point.day),
      by: point.source,
      rate: formats.percent(point.rate),
      on: point.on,
      marks: point.marks,
      cues: point.cues,
    }),
  };
}

interface ConditionLine {
  readonly label: string;
  /** Where the phase's visible part begins and ends. */
  readonly from: number;
  readonly to: number;
  /** Whether the phase begins within the span, so that its line is drawn. */
  readonly begins: boolean;
}

function conditionLines(
  voice: Voice,
  phases: readonly Phase[],
  span: Span,
  from: number,
  to: number,
): ConditionLine[] {
  return phases.flatMap((phase, at) => {
    const start = dayNumber(phase.startsOn) - 0.25;
    const next = phases[at + 1];
    const end = next === undefined ? to : dayNumber(next.startsOn) - 0.25;
    if (phase.startsOn > span.last || end <= from) return [];
    return {
      label: wordPhase(voice, phase),
      from: Math.max(from, start),
      to: Math.min(to, end),
      begins: start > from && at > 0,
    };
  });
}

function conditionMarks(lines: readonly ConditionLine[], width: number): Markish[] {
  const days = (lines.at(-1)?.to ?? 1) - (lines[0]?.from ?? 0);
  // Labels of narrow phases take turns on two rows.
  const isNarrow = lines.some(
    ({ label, from, to }) => ((to - from) / days) * width < labelRoom(label),
  );
  return [
    ruleX(
      lines.filter(({ begins }) => begins),
      {
        x: ({ from }: ConditionLine) => axisDate(from),
        stroke: ink.text,
        strokeDasharray: "5 4",
        insetTop: -32,
      },
    ),
    ...lines.map(({ label, from, to }, at) =>
      text([label], {
        x: axisDate((from + to) / 2),
        frameAnchor: "top",
        // Above any point at 100 %.
        dy: isNarrow && at % 2 === 1 ? -34 : -20,
        fill: ink.text,
        fontWeight: 600,
      }),
    ),
  ];
}

function goalMarks(goal: number | null, label: string, to: number): Markish[] {
  if (goal === null) return [];
  return [
    ruleY([goal], { stroke: ink.lake, strokeDasharray: "8 3 2 3" }),
    text([label], { x: axisDate(to), y: goal, textAnchor: "start", dx: 5, fill: ink.lake }),
  ];
}

function pointMarks(points: readonly GraphPoint[]): Markish[] {
  const self = points.filter(({ source }) => source === "self");
  const observer = points.filter(({ source }) => source === "observer");
  const x = ({ at }: GraphPoint) => axisDate(at);
  // Many points are drawn smaller, so that years stay readable.
  const r = points.length > 250 ? 1.6 : points.length > 90 ? 2.4 : 3.5;
  return [
    lineY(self, { x, y: "rate", z: "run", stroke: ink.text, strokeWidth: r > 2 ? 1.25 : 0.75 }),
    dot(self, { x, y: "rate", r, fill: ink.text, stroke: ink.text }),
    lineY(observer, {
      x,
      y: "rate",
      z: "run",
      stroke: ink.clay,
      strokeWidth: 1,
      strokeDasharray: "2 3",
    }),
    dot(observer, {
      x,
      y: "rate",
      r: r + 1,
      symbol: "square",
      fill: ink.paper,
      stroke: ink.clay,
      strokeWidth: 1.75,
    }),
  ];
}

const intervalMarks = (points: readonly GraphPoint[]): Markish =>
  ruleX(points, {
    x: ({ at }: GraphPoint) => axisDate(at),
    y1: ({ interval }: GraphPoint) => interval.lower,
    y2: ({ interval }: GraphPoint) => interval.upper,
    stroke: ink.soft,
    strokeOpacity: 0.6,
  });

function levelMarks(lines: readonly PhaseLines[], span: Span): Markish {
  const level = lines.map((phase) => ({
    phase,
    line: { first: phase.level, last: phase.level },
  }));
  return straight(level, span, { strokeWidth: 2, strokeDasharray: "10 4" });
}

function trendMarks(lines: readonly PhaseLines[], span: Span): Markish[] {
  const of = (name: "line" | "shallow" | "steep") =>
    lines.flatMap((phase) => (phase.trend === null ? [] : { phase, line: phase.trend[name] }));
  return [
    straight(of("line"), span, { strokeWidth: 2 }),
    straight([...of("shallow"), ...of("steep")], span, {
      strokeWidth: 0.75,
      strokeDasharray: "2 3",
    }),
  ];
}

function criterionMarks({ source, points }: DrawnCriterion, span: Span): Markish[] {
  const shown = points.filter(({ day }) => isWithin(dayText(day), span));
  const x = ({ day }: CriterionPoint) => axisDate(day + 0.5);
  // A line that leaves the chart is broken off there.
  const within = (height: number) => (height >= 0 && height <= 1 ? height : Number.NaN);
  const look = {
    x,
    stroke: source === "self" ? ink.lake : ink.clay,
    strokeWidth: 1.25,
    strokeDasharray: "1.5 3",
  };
  return [
    lineY(shown, { ...look, y: ({ level }: CriterionPoint) => within(level) }),
    lineY(shown, { ...look, y: ({ trend }: CriterionPoint) => within(trend) }),
  ];
}

function straight(
  lines: readonly { readonly phase: PhaseLines; readonly line: DrawnLine }[],
  span: Span,
  look: { strokeWidth: number; strokeDasharray?: string },
): Markish {
  const clipped = lines.flatMap(({ phase, line }) => {
    const part = clipLine(line, { first: phase.firstDay, last: phase.lastDay }, span);
    return part === null ? [] : { ...part, colour: phase.source === "self" ? ink.lake : ink.clay };
  });
  return link(clipped, {
    x1: ({ from }) => axisDate(from + 0.5),
    x2: ({ to }) => axisDate(to + 0.5),
    y1: "first",
    y2: "last",
    stroke: ({ colour }) => colour,
    ...look,
  });
}
