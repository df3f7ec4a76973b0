// What is said of record and observation, for students of whom the truth is known.
import { type CheckedSession, fadeChecks } from "../../../shared/agreement/check-fading.ts";
import { correctedRate } from "../../../shared/agreement/corrected-rate.ts";
import { matchReading } from "../../../shared/agreement/match-reading.ts";
import { twoByTwoOf } from "../../../shared/agreement/two-by-two.ts";
import { type RandomStream, randomStream } from "../../../shared/schedule/stream.ts";
import type { CalibrationRow } from "./row.ts";

/** How a student works and records. Shares from 0 to 1. */
interface Recorder {
  readonly name: string;
  readonly works: number;
  /** Share of the moments at work recorded on, and of those not at work recorded off. */
  readonly onAsOn: number;
  readonly offAsOff: number;
}

const alwaysOn = (works: number): Recorder => ({
  name: `always on, works ${100 * works} %`,
  works,
  onAsOn: 1,
  offAsOff: 0,
});
const hidesHalf = { name: "hides half, works 80 %", works: 0.8, onAsOn: 1, offAsOff: 0.5 };
const true95 = { name: "true at 95 %, works 80 %", works: 0.8, onAsOn: 0.95, offAsOff: 0.95 };
const true95Half = { ...true95, name: "true at 95 %, works 60 %", works: 0.6 };

const cellsOf = (student: Recorder, checks: number, draw: RandomStream) => {
  const cells: [number, number, number, number] = [0, 0, 0, 0];
  for (let check = 0; check < checks; check += 1) {
    const works = draw() < student.works;
    const says = draw() < (works ? student.onAsOn : 1 - student.offAsOff);
    cells[(says ? 0 : 2) + (works ? 0 : 1)] = (cells[(says ? 0 : 2) + (works ? 0 : 1)] ?? 0) + 1;
  }
  return twoByTwoOf(...cells);
};

/**
 * How often checks may thin, the match is called good, and the corrected rate's interval covers, for
 * students who record on always, hide half, or are true.
 */
export function agreementTable(replicates: number): CalibrationRow[] {
  const draw = randomStream("calibration", "agreement");
  const share = (happens: () => boolean) =>
    Array.from({ length: replicates }, happens).filter(Boolean).length / replicates;
  const rows: CalibrationRow[] = [];
  for (const student of [
    alwaysOn(0.8),
    alwaysOn(0.9),
    alwaysOn(0.6),
    hidesHalf,
    true95,
    true95Half,
  ]) {
    for (const checks of [10, 20, 40]) {
      const condition = `${student.name}, ${checks} checks`;
      const isAlwaysOn = student.offAsOff === 0;
      rows.push({
        condition,
        statement: "checks may thin",
        share: share(() => matchReading(cellsOf(student, checks, draw)).next === "let-checks-thin"),
        replicates,
        goal: isAlwaysOn ? { atMost: 0.05 } : null,
      });
      rows.push({
        condition,
        statement: "match good",
        share: share(() => matchReading(cellsOf(student, checks, draw)).match === "good"),
        replicates,
        goal: student === true95 || student === true95Half ? null : { atMost: 0.05 },
      });
    }
  }
  rows.push(thinnedEver(alwaysOn(0.8), share, replicates, draw, { atMost: 0.05 }));
  rows.push(thinnedEver(true95Half, share, replicates, draw, { atLeast: 0.8 }));
  for (const student of [hidesHalf, true95, true95Half])
    rows.push(...covered(student, replicates, draw));
  return rows;
}

/** Twenty sessions of four checks, looked at after each. */
function thinnedEver(
  student: Recorder,
  share: (happens: () => boolean) => number,
  replicates: number,
  draw: RandomStream,
  goal: CalibrationRow["goal"],
): CalibrationRow {
  const everThins = () => {
    const sessions: CheckedSession[] = [];
    for (let session = 0; session < 20; session += 1) {
      const { bothOn, secondOnly, bothOff, compared } = cellsOf(student, 4, draw);
      sessions.push({ compared, matching: bothOn + bothOff, seenOn: bothOn + secondOnly });
      if (fadeChecks(1, sessions).change === "thin") return true;
    }
    return false;
  };
  return {
    condition: `${student.name}, 20 sessions of 4 checks`,
    statement: "checks thinned at some time",
    share: share(everThins),
    replicates,
    goal,
  };
}

/** The interval of the corrected rate from 200 marks of which so many were checked. */
function covered(student: Recorder, replicates: number, draw: RandomStream): CalibrationRow[] {
  return [40, 80].map((checks) => {
    let told = 0;
    let inside = 0;
    for (let replicate = 0; replicate < replicates; replicate += 1) {
      const table = cellsOf(student, checks, draw);
      const rest = cellsOf(student, 200 - checks, draw);
      const on = table.bothOn + table.firstOnly + rest.bothOn + rest.firstOnly;
      const corrected = correctedRate(table, { on, off: 200 - on });
      if (corrected.kind === "not-computable") continue;
      told += 1;
      const { lower, upper } = corrected.interval;
      if (lower <= student.works && student.works <= upper) inside += 1;
    }
    return {
      condition: `${student.name}, 200 marks, ${checks} checks, told in ${Math.round((100 * told) / replicates)} %`,
      statement: "corrected rate's 95 % interval covers",
      share: inside / Math.max(1, told),
      replicates: told,
      goal: { atLeast: 0.93 },
    };
  });
}
