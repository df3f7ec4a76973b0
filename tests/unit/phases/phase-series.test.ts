import { expect, it } from "vitest";
import { seriesOf, splitIntoPhases } from "../../../shared/analysis/phases/phase-series.ts";
import type { SessionCount, Source } from "../../../shared/analysis/types.ts";

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

it("observer first: each phase has one source and says which", () => {
  const phases = splitIntoPhases(spans, [
    session("2026-03-02", 5, 5, "observer"),
    session("2026-03-03", 9, 1),
    session("2026-03-10", 8, 2),
  ]);
  expect(seriesOf(phases, "observer-first")).toMatchObject([
    { source: "observer", points: [{ value: 0.5 }] },
    { source: "self", points: [{ value: 0.8 }] },
  ]);
});
