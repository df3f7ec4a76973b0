import { withdrawalStandard } from "../../analysis/designs/design-standard.ts";
import { withdrawalTest } from "../../analysis/designs/withdrawal-test.ts";
import { splitIntoPhases } from "../../analysis/phases/phase-series.ts";
import type { PointsStandard } from "../../analysis/phases/points-standard.ts";
import { ratePoints } from "../../analysis/statements/points.ts";
import { sessionsBy } from "../../analysis/statements/record-reading.ts";
import { dayNumber } from "../../calendar/calendar.ts";
import type { Phase } from "../../phase/phase.ts";
import type { SessionCount } from "../../record/session-count.ts";
import { drawDay } from "./drawn-start.ts";
import { withdrawalChanges } from "./drawn-withdrawal.ts";

/** What a program shows that began, was taken away and came back on drawn days. */
export interface WithdrawalReading {
  readonly test: ReturnType<typeof withdrawalTest>;
  /** A day was drawn more than once until it was kept: the test is not exact. */
  readonly redrawn: boolean;
  /** Points of each phase, in order of time. */
  readonly points: readonly number[];
  readonly standard: PointsStandard;
}

/**
 * Reads the first run of baseline and program by turns whose days of change were all drawn and kept; null where
 * there are fewer than three such changes. By the observer's points where each phase has some, else the
 * student's own.
 *
 * @param phases those by which the student or group is read, first day first
 *
 * Source: see `withdrawalTest`. Example: readWithdrawal([], []) // null
 */
export function readWithdrawal(
  phases: readonly Phase[],
  sessions: readonly SessionCount[],
): WithdrawalReading | null {
  const from = phases.findIndex(({ kind }) => kind === "baseline");
  if (from < 0) return null;
  const run = [phases[from]];
  for (const phase of phases.slice(from + 1)) {
    const wanted = run.length % 2 === 1 ? "intervention" : "baseline";
    if (phase.kind !== wanted || phase.draw === null) break;
    if (drawDay(phase.draw) !== phase.startsOn) break;
    run.push(phase);
  }
  const held = run.flatMap((phase) => phase ?? []);
  if (held.length <= withdrawalChanges) return null;
  const split = splitIntoPhases(phases, sessions).slice(from, from + held.length);
  const pointsBy = (source: "observer" | "self") =>
    split.map((phase) => ratePoints(sessionsBy(phase.sessions, source)));
  const observed = pointsBy("observer");
  const used = observed.every(({ length }) => length > 0) ? observed : pointsBy("self");
  const points = used.map(({ length }) => length);
  const drawn = held.flatMap(({ draw, startsOn }) =>
    draw === null ? [] : { draw, day: dayNumber(startsOn) },
  );
  return {
    test: withdrawalTest(
      used.flat().map(({ day, on, marks }) => ({ day, value: on / marks })),
      drawn.map(({ draw, day }) => ({ permittedDays: draw.days.map(dayNumber), day })),
    ),
    redrawn: drawn.some(({ draw }) => draw.times > 1),
    points,
    standard: withdrawalStandard(points),
  };
}
