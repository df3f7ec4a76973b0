import { describe, expect, it } from "vitest";
import { simulateRecord } from "../../../shared/analysis/calibration/simulate-record.ts";
import { logOddsRatio } from "../../../shared/analysis/phases/log-odds-ratio.ts";
import { readGroup } from "../../../shared/reading/group-reading.ts";
import { howSure } from "../../../shared/reading/how-sure/how-sure.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { classTable } from "../../bench/calibration/class.ts";
import { conditions } from "../../bench/calibration/conditions.ts";
import { designsTable } from "../../bench/calibration/designs.ts";
import { flagsTable } from "../../bench/calibration/flags.ts";
import { phasesTable } from "../../bench/calibration/phases.ts";
import { missedBy } from "../../bench/calibration/row.ts";
import { trendTable } from "../../bench/calibration/trend.ts";
import { weekTable } from "../../bench/calibration/week.ts";
import { groupCounts, session } from "../../unit/shared/reading/builders.ts";

// The short form of the tables that `npm run bench:calibration` prints: fewer replicates, wider limits. Five
// cues, tied and near-ceiling rates, scatter between days and missing marks are in it.
const replicates = 400;

describe("what is said of a student, at four standard errors", () => {
  it.each([
    ["trend", trendTable, 81],
    ["week", weekTable, 54],
    ["phases", phasesTable, 134],
    ["class", classTable, 30],
    ["flags", flagsTable, 6],
    ["designs", designsTable, 9],
  ] as const)("%s keeps what is promised", (_name, table, promises) => {
    const rows = table(replicates);
    expect(rows.filter((row) => missedBy(row) > 4)).toEqual([]);
    expect(rows.filter(({ goal }) => goal !== null)).toHaveLength(promises);
  });

  it("holds for students of every kind", () => {
    for (const kind of [/5 cues/, /tied/, /ceiling/, /scatter/, /unmarked/])
      expect(conditions.some(({ name, unusual }) => unusual && kind.test(name))).toBe(true);
  });
});

/** What the class page points out of a class in which nobody changes, each Friday of twelve weeks. */
describe("weekly looks at a steady class of 36", () => {
  const size = 36;
  const weeks = 12;
  const each = 5;
  const classes = 5;

  it.each([
    [0, 0.2],
    [0.2, 0.25],
  ])("flag at most the students promised as falling, neighbors alike by %d", (r, goal) => {
    const draw = randomStream("calibration class of 36", String(r));
    let flagged = 0;
    for (let at = 0; at < classes; at += 1) {
      const records = Array.from({ length: size }, (_, student) =>
        simulateRecord(
          { sessions: weeks * each, cues: 10, rate: () => 0.45 + student / 80, r },
          draw,
        ),
      );
      const ever = new Set<string>();
      for (let week = 1; week <= weeks; week += 1) {
        const marks = (record: (typeof records)[number]) =>
          record.slice(0, week * each).map(({ on, off }) => [on, off, 0] as const);
        const held = (records[0] ?? []).slice(0, week * each);
        const counts = groupCounts(
          held.map(({ sessionId, day }) => session(sessionId, day)),
          records.map((record) => ({ self: marks(record) })),
        );
        const { students } = readGroup(
          counts,
          counts.students.map(({ id }) => id),
        );
        for (const { studentId, flags } of students)
          if (flags.some(({ kind }) => kind === "rate-falling")) ever.add(studentId);
      }
      flagged += ever.size;
    }
    const students = classes * size;
    expect(flagged / students).toBeLessThanOrEqual(
      goal + 4 * Math.sqrt((goal * (1 - goal)) / students),
    );
    // What the class page says of chance, from its own simulation, is no less than what happens.
    const { usual } = howSure({ cues: 10, rate: 0.65, perWeek: each }, replicates);
    expect(flagged / students).toBeLessThanOrEqual(
      usual.flagged + 4 * Math.sqrt((usual.flagged * (1 - usual.flagged)) / students),
    );
  });
});

describe("the log odds ratio of few sessions", () => {
  it.each([3, 5, 10])("covers no change with Student's t, %i sessions a phase", (each) => {
    const draw = randomStream("calibration log odds", String(each));
    let [known, normal, small] = [0, 0, 0];
    for (let replicate = 0; replicate < 2_000; replicate += 1) {
      const rates = simulateRecord(
        { sessions: 2 * each, cues: 10, rate: () => 0.6, r: 0 },
        draw,
      ).map(({ on }) => on / 10);
      const found = logOddsRatio(rates.slice(0, each), rates.slice(each));
      if (found.kind !== "computed" || found.interval === null) continue;
      known += 1;
      if (found.interval.lower <= 0 && found.interval.upper >= 0) normal += 1;
      const { lower, upper } = found.smallSampleInterval ?? found.interval;
      if (lower <= 0 && upper >= 0) small += 1;
    }
    expect(small / known).toBeGreaterThan(0.94);
    // By the normal distribution it is too narrow where sessions are few.
    if (each === 3) expect(normal / known).toBeLessThan(0.91);
  });
});
