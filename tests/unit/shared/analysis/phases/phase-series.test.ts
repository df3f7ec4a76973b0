import { describe, expect, it } from "vitest";
import {
  comparedSeries,
  seriesOf,
  splitIntoPhases,
} from "../../../../../shared/analysis/phases/phase-series.ts";
import { phaseSummary } from "../../../../../shared/analysis/phases/phase-summary.ts";
import type { SessionCount, Source } from "../../../../../shared/record/session-count.ts";

let started = 0;
function session(day: string, on: number, off: number, source: Source = "self"): SessionCount {
  started += 1;
  return { sessionId: String(started), startedAt: started, day, on, off, missing: 0, source };
}

const spans = [
  { kind: "intervention", label: "Cards", startsOn: "2026-03-09" },
  { kind: "baseline", label: "Before", startsOn: "2026-03-02" },
] as const;

it("puts each session in the phase that had started, and leaves earlier ones out", () => {
  const phases = splitIntoPhases(spans, [
    session("2026-02-27", 1, 1),
    session("2026-03-02", 2, 2),
    session("2026-03-08", 3, 1),
    session("2026-03-09", 4, 0),
    session("2026-12-31", 1, 0),
  ]);
  expect(phases.map(({ label, sessions }) => [label, sessions.map(({ day }) => day)])).toEqual([
    ["Before", ["2026-03-02", "2026-03-08"]],
    ["Cards", ["2026-03-09", "2026-12-31"]],
  ]);
});

it("gives one source at a time, in order of time, without sessions that have no mark", () => {
  const earlier = session("2026-03-03", 1, 1);
  const phases = splitIntoPhases(spans, [
    session("2026-03-05", 0, 0),
    session("2026-03-05", 3, 1),
    session("2026-03-05", 1, 9, "observer"),
    earlier,
  ]);
  expect(seriesOf(phases, "self")[0]).toMatchObject({
    kind: "baseline",
    source: "self",
    points: [{ value: 0.5 }, { value: 0.75 }],
  });
  expect(seriesOf(phases, "observer")[0]?.points).toMatchObject([{ value: 0.1 }]);
});

describe("which source is compared", () => {
  const self = (day: string, rate: number) => session(day, 100 * rate, 100 - 100 * rate);
  const seen = (day: string, rate: number) =>
    session(day, 100 * rate, 100 - 100 * rate, "observer");
  const march = (from: number, count: number) =>
    Array.from({ length: count }, (_, at) => `2026-03-${String(from + at).padStart(2, "0")}`);
  const before = march(2, 5);
  const after = march(9, 10);
  const rows = (...sessions: SessionCount[]) => comparedSeries(splitIntoPhases(spans, sessions));
  const sources = ({ series }: ReturnType<typeof rows>) =>
    series.map(({ place, source, points }) => [place, source, points.length]);

  it("one probe does not stand for ten self-recorded sessions", () => {
    const found = rows(
      ...before.map((day) => self(day, 0.4)),
      ...after.map((day) => self(day, 0.8)),
      seen("2026-03-12", 0.2),
    );
    expect(sources(found)).toEqual([
      [0, "self", 5],
      [1, "self", 10],
    ]);
    expect(found.pairs).toEqual([{ from: 0, to: 1 }]);
    expect(found.series[1]?.points.every(({ value }) => value === 0.8)).toBe(true);
  });

  it("a baseline that was only observed stands beside a program that was only self-recorded", () => {
    const found = rows(
      ...before.map((day) => seen(day, 0.4)),
      ...after.map((day) => self(day, 0.8)),
    );
    expect(sources(found)).toEqual([
      [0, "observer", 5],
      [1, "self", 10],
    ]);
    expect(phaseSummary(found.series, undefined, found.pairs).comparisons).toMatchObject([
      { sourcesDiffer: true },
    ]);
  });

  it("the observer's points are preferred where both phases have three of them", () => {
    const found = rows(
      ...before.flatMap((day) => [self(day, 0.6), seen(day, 0.4)]),
      ...after.map((day) => self(day, 0.9)),
      ...march(9, 3).map((day) => seen(day, 0.7)),
    );
    expect(sources(found)).toEqual([
      [0, "observer", 5],
      [1, "observer", 3],
    ]);
  });

  it("three self-recorded sessions on both sides go before more observed ones on one", () => {
    const found = rows(
      ...before.map((day) => seen(day, 0.4)),
      ...march(2, 3).map((day) => self(day, 0.6)),
      ...after.map((day) => self(day, 0.9)),
    );
    expect(sources(found)).toEqual([
      [0, "self", 3],
      [1, "self", 10],
    ]);
  });

  it("with fewer than three, each phase is taken by the source with more, the observer's at a tie", () => {
    const found = rows(
      self("2026-03-02", 0.5),
      seen("2026-03-03", 0.4),
      self("2026-03-10", 0.6),
      self("2026-03-11", 0.6),
      seen("2026-03-11", 0.3),
    );
    expect(sources(found)).toEqual([
      [0, "observer", 1],
      [1, "self", 2],
    ]);
  });

  it("a phase between two others may be compared by either source, without mixing them", () => {
    const three = [...spans, { kind: "fading", label: "Thin", startsOn: "2026-03-23" }] as const;
    const found = comparedSeries(
      splitIntoPhases(three, [
        ...before.map((day) => seen(day, 0.4)),
        ...after.flatMap((day) => [self(day, 0.9), seen(day, 0.7)]),
        ...march(23, 4).map((day) => self(day, 0.8)),
      ]),
    );
    expect(sources(found)).toEqual([
      [0, "observer", 5],
      [1, "observer", 10],
      [1, "self", 10],
      [2, "self", 4],
    ]);
    expect(found.pairs).toEqual([
      { from: 0, to: 1 },
      { from: 2, to: 3 },
    ]);
    const summary = phaseSummary(found.series, undefined, found.pairs);
    expect(summary.comparisons.map(({ sourcesDiffer }) => sourcesDiffer)).toEqual([false, false]);
    expect(summary).toMatchObject({ changes: 1, caution: "one-change-cannot-show-cause" });
  });

  it("leaves out phases without a point, and compares nothing where one or none is left", () => {
    expect(rows()).toEqual({ series: [], pairs: [] });
    const found = rows(...after.map((day) => self(day, 0.9)), session("2026-03-02", 0, 0));
    expect(sources(found)).toEqual([[1, "self", 10]]);
    expect(found.pairs).toEqual([]);
  });
});
