import { array, assert, constantFrom, integer, property, record } from "fast-check";
import { describe, expect, it } from "vitest";
import { betweenCaseStatement } from "../../../shared/analysis/statements/between-case.ts";
import { readClass } from "../../../shared/analysis/statements/class-reading.ts";
import {
  readPhases,
  readPresent,
  readRates,
} from "../../../shared/analysis/statements/record-reading.ts";
import { addOverStudents } from "../../../shared/analysis/summary.ts";
import { dayText } from "../../../shared/calendar/calendar.ts";
import type { PhaseKind } from "../../../shared/phase/phase.ts";
import type { SessionCount } from "../../../shared/record/session-count.ts";

// Whatever the counts: nothing breaks, no number is lost, and no interval has a width of zero.

const counts = record({
  gap: integer({ min: 0, max: 9 }),
  on: constantFrom(0, 0, 1, 2, 5, 5, 5, 40),
  off: constantFrom(0, 0, 0, 1, 3, 5, 40),
  missing: integer({ min: 0, max: 3 }),
  source: constantFrom("self" as const, "self" as const, "observer" as const),
});

const students = array(array(counts, { maxLength: 25 }), { minLength: 1, maxLength: 6 });

interface Row {
  readonly gap: number;
  readonly on: number;
  readonly off: number;
  readonly missing: number;
  readonly source: "self" | "observer";
}

/** Sessions one after the other, a quarter of them in each of four phases. */
function memberOf(rows: readonly Row[]) {
  let day = 20_000;
  const kinds: PhaseKind[] = ["baseline", "intervention", "baseline", "fading"];
  const sessions = rows.map((row, at): SessionCount => {
    day += row.gap;
    return {
      sessionId: `${at}`,
      startedAt: day * 86_400_000 + at * 60_000,
      day: dayText(day),
      on: row.on,
      off: row.off,
      missing: row.missing,
      source: row.source,
    };
  });
  const size = Math.ceil(sessions.length / kinds.length);
  const phases = kinds.map((kind, at) => ({
    kind,
    label: kind,
    sessions: sessions.slice(at * size, (at + 1) * size),
  }));
  return { sessions, phases };
}

function check(value: unknown): void {
  if (typeof value === "number") expect(Number.isFinite(value)).toBe(true);
  if (Array.isArray(value)) value.forEach(check);
  if (typeof value !== "object" || value === null) return;
  if ("lower" in value && "upper" in value) {
    expect(Number(value.upper)).toBeGreaterThan(Number(value.lower));
  }
  Object.values(value).forEach(check);
}

describe("what may be said", () => {
  it("is finite and never certain, whatever a student's counts are", () => {
    assert(
      property(array(counts, { maxLength: 40 }), (rows) => {
        const { sessions, phases } = memberOf(rows);
        check(readPresent(null, sessions));
        check(readPhases(phases));
        check(readRates(sessions, phases, "self"));
      }),
      { numRuns: 200 },
    );
  });

  it("is finite and never certain, whatever a class's counts are", () => {
    assert(
      property(students, (all) => {
        const members = all.map(memberOf);
        const together = addOverStudents(
          members.map(({ sessions }, at) => ({ studentId: String(at), sessions })),
        );
        check(readClass(members, members[0]?.phases ?? [], together, null));
        check(betweenCaseStatement(members));
      }),
      { numRuns: 200 },
    );
  });
});
