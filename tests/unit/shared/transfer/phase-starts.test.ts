import { expect, it } from "vitest";
import { phaseStarts } from "../../../../shared/transfer/phase-starts.ts";
import { parsePhase } from "../../../../shared/transfer/phase-text.ts";

/** Days of March 2026 by date; the empty text is no phase. */
const rowsOf = (student: string, phases: Readonly<Record<number, string>>) =>
  Object.entries(phases).map(([date, text]) => ({
    student,
    day: `2026-03-${date.padStart(2, "0")}`,
    phase: parsePhase(text) ?? null,
  }));
const told = (starts: readonly { kind: string; startsOn: string }[] = []) =>
  starts.map(({ kind, startsOn }) => `${kind} ${Number(startsOn.slice(-2))}`);

it("a run of days that name a phase is one phase, whoever was absent on its first day", () => {
  const { group, own } = phaseStarts([
    ...rowsOf("Pine", { 2: "baseline", 3: "baseline", 10: "intervention" }),
    ...rowsOf("Otter", { 4: "baseline", 9: "intervention", 16: "fading" }),
  ]);
  expect(told(group)).toEqual(["baseline 2", "intervention 9", "fading 16"]);
  expect(own.size).toBe(0);
});

it("a phase that comes again is a new one", () => {
  const { group } = phaseStarts(
    rowsOf("Pine", { 2: "baseline", 9: "intervention", 16: "baseline", 23: "intervention" }),
  );
  expect(told(group)).toEqual(["baseline 2", "intervention 9", "baseline 16", "intervention 23"]);
});

it("days before a student's first phase hold none; later ones without a name say nothing", () => {
  const { group, own } = phaseStarts([
    ...rowsOf("Pine", { 2: "baseline", 9: "intervention", 10: "", 11: "intervention" }),
    ...rowsOf("Wren", { 2: "baseline", 9: "intervention" }),
    ...rowsOf("Otter", { 2: "", 3: "", 9: "intervention" }),
    ...rowsOf("Moss", { 2: "" }),
  ]);
  expect(told(group)).toEqual(["baseline 2", "intervention 9"]);
  expect([...own.keys()]).toEqual(["Otter"]);
  expect(told(own.get("Otter"))).toEqual(["intervention 9"]);
});

it("students who never sat on the same day do not cut each other's phases up", () => {
  const { group, own } = phaseStarts([
    ...rowsOf("Pine", { 2: "baseline", 4: "baseline" }),
    ...rowsOf("Wren", { 2: "baseline" }),
    ...rowsOf("Otter", { 3: "intervention" }),
  ]);
  expect(told(group)).toEqual(["baseline 2"]);
  expect(told(own.get("Otter"))).toEqual(["intervention 3"]);
});

it("nothing comes of no rows, and of rows without a phase", () => {
  expect(phaseStarts([])).toEqual({ group: [], own: new Map() });
  expect(phaseStarts(rowsOf("Pine", { 2: "" }))).toEqual({ group: [], own: new Map() });
});
