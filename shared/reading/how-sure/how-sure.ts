import { simulateRecord } from "../../analysis/calibration/simulate-record.ts";
import type { Evidence } from "../../analysis/evidence.ts";
import { lastingFall } from "../../analysis/statements/lasting-fall.ts";
import { phaseStatement } from "../../analysis/statements/phase-statement.ts";
import { trendStatement } from "../../analysis/statements/trend-statement.ts";
import { weekStatement } from "../../analysis/statements/week-statement.ts";
import type { SessionCount } from "../../record/session-count.ts";
import { randomStream } from "../../schedule/stream.ts";
import type { NotEnough } from "../../statistics/result.ts";
import { wilsonInterval } from "../../statistics/wilson.ts";
import { type AdviceErrors, adviceErrors, type MatchErrors, matchErrors } from "./advice-errors.ts";
import type { OwnPlan } from "./how-sure-plan.ts";

/** How often what is said of a student in whom nothing changes is wrong, as shares of such students. */
export interface SteadyErrors extends AdviceErrors {
  readonly trendClear: number;
  readonly trendAny: number;
  readonly weekClear: number;
  readonly weekAny: number;
  readonly phasesClear: number;
  readonly phasesAny: number;
  /** The 95 % interval of a phase difference leaves out the truth. */
  readonly missed: number;
  /** Flagged as falling in one or more of twelve weekly looks. */
  readonly flagged: number;
}

/** How often a true change is found clearly, by so many sessions in each of two phases. */
export interface FoundChange {
  readonly sessions: number;
  readonly tenPoints: number;
  readonly twentyPoints: number;
  readonly thirtyPoints: number;
}

export interface HowSure {
  readonly plan: OwnPlan;
  /** Students whose neighbouring sessions are as alike as usual, and much alike. */
  readonly usual: SteadyErrors;
  readonly alike: SteadyErrors;
  readonly match: MatchErrors;
  readonly found: readonly FoundChange[];
  /** Half the width of the 95 % interval of one session and of a week, as shares. */
  readonly reach: { readonly session: number; readonly week: number };
  readonly replicates: number;
}

/** Correlations of neighbouring sessions: the mean of published series, and a hard case (see `serialFit`). */
const alikeness = { usual: 0.2, much: 0.6 } as const;

const sessions = 20;
/** Weeks, with one look at the end of each. */
const looks = 12;

/**
 * What may be said with a plan, and how often it is wrong, by simulation from a fixed seed: the same plan has
 * the same figures every time. 20 sessions of a steady student, so many a week; phases of 10 v 10.
 *
 * Example: howSure({ cues: 10, rate: 0.6, perWeek: 5 }, 500).usual.trendClear // about .03
 *
 * @throws RangeError when cues or sessions a week are no whole number from 1 on, or the rate is not between
 * 0 and 1.
 */
export function howSure(plan: OwnPlan, replicates: number): HowSure {
  const { cues, rate, perWeek } = plan;
  if (!Number.isInteger(cues) || cues < 1) throw new RangeError(`cues must be whole; got ${cues}.`);
  if (!Number.isInteger(perWeek) || perWeek < 1) {
    throw new RangeError(`perWeek must be whole; got ${perWeek}.`);
  }
  if (!(rate >= 0 && rate <= 1)) throw new RangeError(`rate must be 0 to 1; got ${rate}.`);
  const half = rate < 0.5 ? 1 : -1;
  const found = [5, 10, 20].map((each) => {
    const share = (change: number) => foundShare(plan, each, half * change, replicates);
    return {
      sessions: each,
      tenPoints: share(0.1),
      twentyPoints: share(0.2),
      thirtyPoints: share(0.3),
    };
  });
  return {
    plan,
    usual: steadyErrors(plan, alikeness.usual, replicates),
    alike: steadyErrors(plan, alikeness.much, replicates),
    match: matchErrors(rate, replicates),
    found,
    reach: { session: reachOf(cues, rate), week: reachOf(cues * perWeek, rate) },
    replicates,
  };
}

function steadyErrors(plan: OwnPlan, r: number, replicates: number): SteadyErrors {
  const { cues, rate, perWeek } = plan;
  const draw = randomStream("how sure", `steady ${cues} ${rate} ${r}`);
  const length = Math.max(sessions, looks * perWeek);
  const counts = {
    trendClear: 0,
    trendAny: 0,
    weekClear: 0,
    weekAny: 0,
    phasesClear: 0,
    phasesAny: 0,
    missed: 0,
    flagged: 0,
  };
  for (let replicate = 0; replicate < replicates; replicate += 1) {
    const record = simulateRecord({ sessions: length, cues, r, rate: () => rate, perWeek }, draw);
    const held = record.slice(0, sessions);
    const trend = trendStatement(held);
    const week = weekStatement(held);
    const phases = phaseStatement(held.slice(0, sessions / 2), held.slice(sessions / 2), "up");
    counts.trendClear += said(trend, "clear");
    counts.trendAny += said(trend, "clear", "probable");
    counts.weekClear += said(week, "clear");
    counts.weekAny += said(week, "clear", "probable");
    counts.phasesClear += said(phases, "clear");
    counts.phasesAny += said(phases, "clear", "probable");
    if (phases.kind === "enough") {
      const { lower, upper } = phases.interval;
      counts.missed += lower > 0 || upper < 0 ? 1 : 0;
    }
    counts.flagged += isEverFlagged(record, perWeek) ? 1 : 0;
  }
  const share = (count: number) => count / replicates;
  return {
    ...adviceErrors(plan, r, replicates),
    trendClear: share(counts.trendClear),
    trendAny: share(counts.trendAny),
    weekClear: share(counts.weekClear),
    weekAny: share(counts.weekAny),
    phasesClear: share(counts.phasesClear),
    phasesAny: share(counts.phasesAny),
    missed: share(counts.missed),
    flagged: share(counts.flagged),
  };
}

function isEverFlagged(record: readonly SessionCount[], perWeek: number): boolean {
  for (let week = 2; week <= looks; week += 1) {
    if (lastingFall(record.slice(0, week * perWeek)) !== null) return true;
  }
  return false;
}

/** A change of the rate between two phases, up from a low rate and down from a high one. */
function foundShare(
  { cues, rate, perWeek }: OwnPlan,
  each: number,
  change: number,
  replicates: number,
): number {
  const draw = randomStream("how sure", `found ${cues} ${rate} ${each} ${change}`);
  const direction = change > 0 ? "up" : "down";
  let found = 0;
  for (let replicate = 0; replicate < replicates; replicate += 1) {
    const record = simulateRecord(
      {
        sessions: 2 * each,
        cues,
        r: alikeness.usual,
        rate: (at) => Math.min(0.99, Math.max(0.01, rate + (at < each ? 0 : change))),
        perWeek,
      },
      draw,
    );
    const stated = phaseStatement(record.slice(0, each), record.slice(each), direction);
    if (stated.kind === "enough" && stated.outcome === "as-wanted") found += 1;
  }
  return found / replicates;
}

const said = (
  found: NotEnough | { readonly kind: "enough"; readonly evidence: Evidence },
  ...words: readonly Evidence[]
): number => (found.kind === "enough" && words.includes(found.evidence) ? 1 : 0);

function reachOf(cues: number, rate: number): number {
  const { lower, upper } = wilsonInterval(Math.round(rate * cues), cues);
  return (upper - lower) / 2;
}
