// What is advised to students of whom the true rate is known.
import { type AdviceInputs, advise } from "../../../shared/advice/advice.ts";
import { summariseTable } from "../../../shared/agreement/agreement-summary.ts";
import { twoByTwoOf } from "../../../shared/agreement/two-by-two.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import type { CalibrationRow } from "./row.ts";
import { simulateRecord } from "./simulate.ts";

const goal = 0.8;
const sessionsWatched = 10;

/** At a step with denser ones before it and thinner ones after it; the checks allow what the rate does. */
const usual: Omit<AdviceInputs, "sessions"> = {
  ladder: { cueSteps: 3 },
  place: 1,
  goal,
  daysHere: 3,
  source: "self",
  agreement: summariseTable(twoByTwoOf(24, 1, 1, 14)),
  sessionsSinceCheck: 0,
  pointsPaid: true,
  baseline: { self: null, observer: null },
  work: null,
};

interface Cell {
  readonly cues: number;
  /** True rate less the goal. */
  readonly above: number;
  readonly r: number;
  readonly icc?: number;
  readonly missing?: number;
}

const cells: readonly Cell[] = [
  ...[5, 10, 20].flatMap((cues) =>
    [0, 0.3, 0.6].flatMap((r) => [-0.1, 0, 0.1].map((above) => ({ cues, above, r }))),
  ),
  ...[-0.1, 0.1].map((above) => ({ cues: 10, above, r: 0.3, icc: 0.1 })),
  ...[-0.1, 0.1].map((above) => ({ cues: 10, above, r: 0.3, missing: 0.2 })),
];

/**
 * How often cues are thinned, or a step back is advised, at some time within ten sessions and at the tenth,
 * for a true rate ten points under the goal of 80 %, at it and ten points above it.
 */
export function adviceTable(replicates: number): CalibrationRow[] {
  return [
    ...cells.flatMap((cell) => rowsOf(cell, replicates)),
    ...[1, 2, 4].map((checks) => alwaysOnRow(checks, replicates)),
  ];
}

/** A student who says yes at every cue and works at ten points under the goal, checked so often a session. */
function alwaysOnRow(checksEach: number, replicates: number): CalibrationRow {
  const draw = randomStream("calibration", `advice always on ${checksEach}`);
  const works = goal - 0.1;
  const isThinned = () => {
    let [on, off] = [0, 0];
    const sessions: { on: number; off: number; missing: number }[] = [];
    for (let session = 0; session < sessionsWatched; session += 1) {
      sessions.push({ on: 10, off: 0, missing: 0 });
      for (let check = 0; check < checksEach; check += 1) {
        if (draw() < works) on += 1;
        else off += 1;
      }
      const agreement = summariseTable(twoByTwoOf(on, off, 0, 0));
      if (advise({ ...usual, sessions, agreement }).decision === "thin-cues") return true;
    }
    return false;
  };
  return {
    condition: `on at every cue, ${checksEach} checks a session, true rate ${100 * works} %, goal ${100 * goal} %`,
    statement: "thinned within ten sessions",
    share: Array.from({ length: replicates }, isThinned).filter(Boolean).length / replicates,
    replicates,
    goal: { atMost: 0.1 },
  };
}

function rowsOf(cell: Cell, replicates: number): CalibrationRow[] {
  const { cues, above, r, icc = 0, missing = 0 } = cell;
  const draw = randomStream("calibration", `advice ${JSON.stringify(cell)}`);
  const counts = { thinned: 0, back: 0, thinnedAtTen: 0, backAtTen: 0 };
  for (let replicate = 0; replicate < replicates; replicate += 1) {
    const rate = () => goal + above;
    const record = simulateRecord({ sessions: sessionsWatched, cues, rate, r, icc, missing }, draw);
    const said = record.map(
      (_, at) => advise({ ...usual, sessions: record.slice(0, at + 1) }).decision,
    );
    if (said.includes("thin-cues")) counts.thinned += 1;
    if (said.includes("step-back")) counts.back += 1;
    if (said.at(-1) === "thin-cues") counts.thinnedAtTen += 1;
    if (said.at(-1) === "step-back") counts.backAtTen += 1;
  }
  const kinds = [
    icc > 0 ? `scatter icc ${icc}` : "",
    missing > 0 ? `${100 * missing} % missing` : "",
  ];
  const condition = [
    `${cues} cues, r ${r}`,
    ...kinds.filter((kind) => kind !== ""),
    `true rate ${Math.round(100 * (goal + above))} %, goal ${100 * goal} %`,
  ].join(", ");
  const row = (statement: string, count: number, promised: CalibrationRow["goal"]) => ({
    condition,
    statement,
    share: count / replicates,
    replicates,
    goal: promised,
  });
  // Where neighbours are more alike, days scatter or marks off task go missing, twice as much is allowed.
  const hard = r > 0.3 || icc > 0 || missing > 0 ? 2 : 1;
  return [
    row("thinned within ten sessions", counts.thinned, above < 0 ? { atMost: 0.1 * hard } : null),
    row("thinned at the tenth", counts.thinnedAtTen, null),
    row("stepped back within ten sessions", counts.back, above > 0 ? { atMost: 0.1 * hard } : null),
    row("stepped back at the tenth", counts.backAtTen, null),
  ];
}
