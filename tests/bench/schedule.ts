// Prints how fast cues are drawn: npm run bench:schedule, or node tests/bench/schedule.ts.
import { performance } from "node:perf_hooks";
import { firstPlan, lawNames } from "../../shared/plan/plan.ts";
import { checkPlan } from "../../shared/schedule/check-plan.ts";
import { guess } from "../../shared/schedule/guess.ts";
import { planLaw } from "../../shared/schedule/plan-law.ts";
import { sessionSchedule } from "../../shared/schedule/session-schedule.ts";
import { randomStream } from "../../shared/schedule/stream.ts";

const million = 1_000_000;

function timed(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** Median and 99th percentile of `times` runs, in milliseconds. */
function spread(times: number, work: (run: number) => void): string {
  const runs = Array.from({ length: times }, (_, run) => timed(() => work(run))).sort(
    (one, other) => one - other,
  );
  const at = (share: number) => (runs[Math.floor(share * (times - 1))] ?? 0).toFixed(3);
  return `median ${at(0.5)} ms, 99th percentile ${at(0.99)} ms, worst ${at(1)} ms (${times} runs)`;
}

console.log(`A million cues (goal: under 1000 ms), Node ${process.version}`);
for (const law of lawNames) {
  for (const longestGapSeconds of law === "exponential" || law === "balanced"
    ? [null, 300]
    : [null]) {
    let sum = 0;
    const milliseconds = timed(() => {
      const next = planLaw({ ...firstPlan, law, longestGapSeconds }).gaps(
        randomStream("bench", "cues"),
      );
      for (let cue = 0; cue < million; cue++) sum += next();
    });
    const name = longestGapSeconds === null ? law : `${law}, longest gap`;
    const mean = (sum / million).toFixed(2);
    console.log(`  ${name.padEnd(26)}${milliseconds.toFixed(0).padStart(5)} ms   mean ${mean} s`);
  }
}

console.log("One session schedule, 20 minutes at a mean of 2 (goal: under 1 ms)");
for (const law of lawNames) {
  const plan = { ...firstPlan, law };
  console.log(`  ${law.padEnd(26)}${spread(2000, (run) => sessionSchedule(plan, `bench-${run}`))}`);
}
const floored = { ...firstPlan, fewestCues: 10 };
console.log(
  `  at least 10 cues          ${spread(2000, (run) => sessionSchedule(floored, `bench-${run}`))}`,
);

console.log("Around a plan");
const cut = { ...firstPlan, longestGapSeconds: 300, fewestCues: 6 };
console.log(`  check of a plan           ${spread(200, () => checkPlan(firstPlan))}`);
console.log(`  check, longest gap, floor ${spread(200, () => checkPlan(cut))}`);
console.log(`  guess, exact              ${spread(50, () => guess(firstPlan))}`);
console.log(`  guess, simulated          ${spread(10, () => guess(floored))}`);
