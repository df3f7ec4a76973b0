// Whether the sessions that the planner promises suffice for the rule that reads them.
import { phaseStatement } from "../../../shared/analysis/statements/phase-statement.ts";
import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import { firstPlan, type PlanSettings } from "../../../shared/plan/plan.ts";
import type { SessionCount } from "../../../shared/record/session-count.ts";
import {
  type Bouts,
  planningRule,
  sessionsToTellChange,
  trueRate,
  usualDaySpread,
} from "../../../shared/schedule/precision.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { type RandomStream, randomStream } from "../../../shared/schedule/stream.ts";
import { normalCdf } from "../../../shared/statistics/normal.ts";
import type { CalibrationRow } from "./row.ts";
import { normal } from "./simulate.ts";

interface Case {
  readonly name: string;
  readonly plan: PlanSettings;
  readonly bouts: Bouts;
  readonly change: number;
}

const minutes = (count: number) => 60 * count;
const planOf = (change: Partial<PlanSettings>): PlanSettings => ({
  ...firstPlan,
  fewestCues: 0,
  ...change,
});

// Plans, bouts and changes of the review that found the old numbers too small, and one short dense plan.
const cases: readonly Case[] = [
  {
    name: "every 30 s, 30 min, bouts 30/30, 30 pp",
    plan: planOf({ meanSeconds: 30, shortestGapSeconds: 5, lengthSeconds: minutes(30) }),
    bouts: { onSeconds: 30, offSeconds: 30 },
    change: 0.3,
  },
  {
    name: "every 60 s, 30 min, bouts 45/45, 30 pp",
    plan: planOf({ meanSeconds: 60, shortestGapSeconds: 10, lengthSeconds: minutes(30) }),
    bouts: { onSeconds: 45, offSeconds: 45 },
    change: 0.3,
  },
  {
    name: "every 60 s, 20 min, bouts 120/80, 20 pp",
    plan: planOf({ meanSeconds: 60, shortestGapSeconds: 10, lengthSeconds: minutes(20) }),
    bouts: { onSeconds: 120, offSeconds: 80 },
    change: 0.2,
  },
  {
    name: "balanced 120 s, 30 min, bouts 45/30, 20 pp",
    plan: planOf({
      law: "balanced",
      meanSeconds: 120,
      shortestGapSeconds: 20,
      lengthSeconds: minutes(30),
    }),
    bouts: { onSeconds: 45, offSeconds: 30 },
    change: 0.2,
  },
  {
    name: "uniform 180 s, 20 min, bouts 60/60, 30 pp",
    plan: planOf({
      law: "uniform",
      meanSeconds: 180,
      shortestGapSeconds: 30,
      lengthSeconds: minutes(20),
    }),
    bouts: { onSeconds: 60, offSeconds: 60 },
    change: 0.3,
  },
  {
    name: "every 20 s, 60 min, bouts 60/60, 40 pp",
    plan: planOf({ meanSeconds: 20, shortestGapSeconds: 4, lengthSeconds: minutes(60) }),
    bouts: { onSeconds: 60, offSeconds: 60 },
    change: 0.4,
  },
];

/**
 * Power of the number of sessions that the planner promises, and of one fewer: how often the rule calls the
 * change clear, in the right direction. Students switch at random between working and not; their days differ
 * by ten percentage points, and neighbouring sessions are alike (r = .2).
 */
export function plannerTable(replicates: number): CalibrationRow[] {
  return cases.flatMap((planned) => {
    const promised = sessionsToTellChange(planned, planned.change);
    const isLeast = promised === planningRule.fewestSessions;
    const pools = poolsOf(planned);
    const row = (sessions: number, goal: CalibrationRow["goal"]): CalibrationRow => ({
      condition: `${planned.name}: ${sessions} and ${sessions} sessions`,
      statement: sessions === promised ? "change found (promised)" : "change found (one fewer)",
      share: powerOf(planned.name, pools, sessions, replicates),
      replicates,
      goal,
    });
    const rows = [row(promised, { atLeast: 0.75 })];
    // Fewer than the least cannot be clear, so there is nothing to show.
    return isLeast ? rows : [...rows, row(promised - 1, { atMost: 0.8 })];
  });
}

type Pool = readonly { readonly on: number; readonly off: number }[];

/** Simulated sessions before the change and after it, each sorted by its on-task share. */
function poolsOf({ name, plan, bouts, change }: Case): readonly [Pool, Pool] {
  const draw = randomStream("calibration", `planner ${name}`);
  const cycle = bouts.onSeconds + bouts.offSeconds;
  const pool = (rate: number): Pool =>
    Array.from({ length: poolSize }, (_, at) => {
      const { cues } = sessionSchedule(plan, `planner ${name} ${at % schedulesDrawn}`);
      const today = Math.min(0.98, Math.max(0.02, rate + usualDaySpread * normal(draw)));
      const on = marksOn(cues, today, cycle, draw);
      return { on, off: cues.length - on };
    })
      .filter(({ on, off }) => on + off > 0)
      .sort((one, other) => one.on / (one.on + one.off) - other.on / (other.on + other.off));
  return [pool(trueRate(bouts)), pool(trueRate(bouts) + change)];
}

const poolSize = 4000;
const schedulesDrawn = 400;

function powerOf(
  name: string,
  pools: readonly [Pool, Pool],
  sessions: number,
  replicates: number,
): number {
  const draw = randomStream("calibration", `planner ${name} ${sessions}`);
  let found = 0;
  for (let replicate = 0; replicate < replicates; replicate += 1) {
    const record = recordOf(pools, sessions, draw);
    const stated = phaseStatement(record.slice(0, sessions), record.slice(sessions), "up");
    if (stated.kind === "enough" && stated.outcome === "as-wanted") found += 1;
  }
  return found / replicates;
}

/** The correlation of normal scores at which the shares themselves correlate at .2, near enough. */
const scoreCorrelation = planningRule.serialCorrelation * 1.02;

/** So many sessions before the change and as many after it, neighbours alike by their normal scores. */
function recordOf(
  pools: readonly [Pool, Pool],
  sessions: number,
  draw: RandomStream,
): SessionCount[] {
  const first = dayNumber("2024-09-02");
  let score = normal(draw);
  return Array.from({ length: 2 * sessions }, (_, at) => {
    if (at > 0)
      score = scoreCorrelation * score + Math.sqrt(1 - scoreCorrelation ** 2) * normal(draw);
    const pool = pools[at < sessions ? 0 : 1];
    const { on, off } = pool[Math.floor(normalCdf(score) * pool.length)] ?? { on: 0, off: 0 };
    return {
      sessionId: `s${at}`,
      startedAt: at * 86_400_000,
      day: dayText(first + Math.floor(at / 5) * 7 + (at % 5)),
      on,
      off,
      missing: 0,
      source: "self" as const,
    };
  });
}

/** Cues at which a student who switches at random is at work. */
function marksOn(cues: readonly number[], rate: number, cycle: number, draw: RandomStream): number {
  const switching = 1 / (rate * cycle) + 1 / ((1 - rate) * cycle);
  let isOn = draw() < rate;
  let on = 0;
  let last = cues[0] ?? 0;
  for (const cue of cues) {
    isOn = draw() < rate + ((isOn ? 1 : 0) - rate) * Math.exp(-switching * (cue - last));
    last = cue;
    if (isOn) on += 1;
  }
  return on;
}
