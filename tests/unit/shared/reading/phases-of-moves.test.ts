import { describe, expect, it } from "vitest";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { phasesOfMoves } from "../../../../shared/reading/phases-of-moves.ts";

const phase = (id: string, startsOn: string, studentId: string | null = null): Phase => ({
  id,
  groupId: "0190a000-0000-7000-8000-000000000001",
  studentId,
  kind: "baseline",
  label: id,
  startsOn,
  draw: null,
  probes: null,
});
const days = (phases: readonly Phase[]) => phases.map(({ id, startsOn }) => `${id} ${startsOn}`);

describe("The phases of a student who has moved", () => {
  const old = [phase("old baseline", "2026-01-12"), phase("old program", "2026-02-02")];
  const young = [phase("new baseline", "2026-01-05"), phase("new program", "2026-03-09")];

  it("are the first group's until the move, and what holds in the second from that day", () => {
    const found = phasesOfMoves(
      [
        { phases: old, fromDay: null },
        { phases: young, fromDay: "2026-02-23" },
      ],
      "ash",
    );
    expect(days(found)).toEqual([
      "old baseline 2026-01-12",
      "old program 2026-02-02",
      "new baseline 2026-02-23",
      "new program 2026-03-09",
    ]);
  });

  it("leave out what the first group began after the move, and keep the student's own", () => {
    const found = phasesOfMoves(
      [
        { phases: [...old, phase("own", "2026-01-20", "ash")], fromDay: null },
        { phases: young, fromDay: "2026-01-26" },
      ],
      "ash",
    );
    expect(days(found)).toEqual([
      "old baseline 2026-01-12",
      "own 2026-01-20",
      "new baseline 2026-01-26",
      "new program 2026-03-09",
    ]);
  });
});
