import { recentSessions } from "../../../shared/analysis/recent.ts";
import { lastingFall } from "../../../shared/analysis/statements/lasting-fall.ts";
import { trendStatement } from "../../../shared/analysis/statements/trend-statement.ts";
import type { SessionCount } from "../../../shared/record/session-count.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import type { Table } from "./outcomes.ts";
import type { CalibrationRow } from "./row.ts";
import { simulateRecord } from "./simulate.ts";

const weeks = 12;
const each = 5;

/** The look at each Friday in which a rule first points the student out; null for never. */
function firstLook(
  record: readonly SessionCount[],
  flagged: (held: readonly SessionCount[]) => boolean,
  from = 1,
): number | null {
  for (let week = from; week <= weeks; week += 1) {
    if (flagged(record.slice(0, each * week))) return week;
  }
  return null;
}

/** A rule that points out every fall that is probable: it is quick, and wrong for most steady students. */
function everyProbable(held: readonly SessionCount[]): boolean {
  return [held, held.slice(-recentSessions)].some((sessions) => {
    const trend = trendStatement(sessions);
    return (
      trend.kind === "enough" && trend.direction === "down" && trend.evidence !== "cannot-tell"
    );
  });
}

const flagged = (held: readonly SessionCount[]) => lastingFall(held) !== null;

/** Weekly looks over twelve weeks of five sessions of ten cues, 70 %. */
export const flagsTable: Table = (replicates) => {
  const rows: CalibrationRow[] = [];
  for (const [r, goal] of [
    [0, { atMost: 0.2 }],
    [0.2, { atMost: 0.25 }],
  ] as const) {
    const of = `${weeks} weekly looks, 10 cues, 70 %, r ${r}`;
    const draw = randomStream("calibration flags", of);
    const steady = () =>
      simulateRecord({ sessions: weeks * each, cues: 10, r, rate: () => 0.7 }, draw);
    const falling = () =>
      simulateRecord(
        {
          sessions: weeks * each,
          cues: 10,
          r,
          // From the first day of week 5 to the last of week 7.
          rate: (at) => 0.7 - 0.3 * Math.min(1, Math.max(0, (at - 4 * each) / (3 * each - 1))),
        },
        draw,
      );
    let steadyFlagged = 0;
    let found = 0;
    let delay = 0;
    for (let trial = 0; trial < replicates; trial += 1) {
      if (firstLook(steady(), flagged) !== null) steadyFlagged += 1;
      const record = falling();
      const look = firstLook(record, flagged, 5);
      const quick = firstLook(record, everyProbable, 5);
      if (look !== null) found += 1;
      if (look !== null && quick !== null) delay += look - quick;
    }
    const row = (
      statement: string,
      share: number,
      promised: CalibrationRow["goal"],
    ): CalibrationRow => ({ statement, condition: of, share, replicates, goal: promised });
    rows.push(
      row("a steady student flagged at least once", steadyFlagged / replicates, goal),
      row("a fall of 30 points over weeks 5 to 7 flagged", found / replicates, { atLeast: 0.99 }),
      // As a share of the two weeks that are allowed.
      row("its mean delay behind every probable fall, over two weeks", delay / found / 2, {
        atMost: 1,
      }),
    );
  }
  return rows;
};
