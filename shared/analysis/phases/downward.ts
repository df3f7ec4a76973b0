import { pnd } from "../../statistics/pnd.ts";
import { type CriterionLines, type DualCriterion, dualCriterion } from "./dual-criterion.ts";

/** What shows a fall, where a fall is wanted: a program that was taken away again. */
export interface Downward {
  /** Share of later points below the lowest earlier one. */
  readonly pnd: ReturnType<typeof pnd>;
  /** Both criterion lines, the conservative ones lowered; `above` counts the later points below both. */
  readonly dualCriterion: ReturnType<typeof dualCriterion>;
}

/**
 * PND and the dual criterion turned over, for a change that should lower the values.
 *
 * Source: as `pnd` and `dualCriterion`, whose sources give both directions.
 *
 * Example: downward([5, 6, 5], [1, 2, 1, 0, 1]).pnd // { kind: "computed", value: 1 }
 */
export function downward(a: readonly number[], b: readonly number[]): Downward {
  const [before, after] = [a.map(turned), b.map(turned)];
  const lines = dualCriterion(before, after);
  return {
    pnd: pnd(before, after),
    dualCriterion: lines.kind === "not-computable" ? lines : turnedBack(lines),
  };
}

// Adding 0 turns -0 into 0.
const turned = (value: number): number => 0 - value;

const turnedBack = (criterion: DualCriterion): DualCriterion => ({
  ...criterion,
  dual: linesBack(criterion.dual),
  conservative: linesBack(criterion.conservative),
});

const linesBack = (lines: CriterionLines): CriterionLines => ({
  ...lines,
  level: turned(lines.level),
  trendInA: lines.trendInA.map(turned),
  trendInB: lines.trendInB.map(turned),
});
