// Prints how often what is said is wrong: npm run bench:calibration [-- NAME ...], 2,000 replicates a cell,
// or as many as the variable REPLICATES says. Students are invented and drawn from fixed seeds.
import { type CalibrationRow, missedBy } from "./row.ts";
import { tables } from "./tables.ts";

const replicates = Number(process.env.REPLICATES ?? 2_000);
const names = process.argv.slice(2);
const wrong = names.filter((name) => tables[name] === undefined);
if (wrong.length > 0) {
  console.error(`No table ${wrong.join(", ")}; there are ${Object.keys(tables).join(", ")}.`);
  process.exit(2);
}

/** A goal is met when the share misses it by no more than so many standard errors. */
const allowed = 2;

const percent = (share: number) => `${(100 * share).toFixed(1)} %`.padStart(8);

function goalText(row: CalibrationRow): string {
  if (row.goal === null) return "";
  const bound =
    "atMost" in row.goal
      ? `at most ${percent(row.goal.atMost)}`
      : `at least ${percent(row.goal.atLeast)}`;
  const off = missedBy(row);
  const met = off > allowed ? `MISSED by ${off.toFixed(1)} standard errors` : "met";
  return `  (goal ${bound}: ${met})`;
}

let missed = 0;
let goals = 0;
for (const [name, table] of Object.entries(tables)) {
  if (names.length > 0 && !names.includes(name)) continue;
  const rows = table(replicates);
  console.log(`\n${name}, ${rows[0]?.replicates ?? replicates} replicates a cell`);
  // Statement by statement, each over all students.
  for (const statement of new Set(rows.map((row) => row.statement))) {
    console.log(`\n  ${statement}`);
    for (const row of rows.filter((each) => each.statement === statement)) {
      console.log(`    ${percent(row.share)}  ${row.condition}${goalText(row)}`);
    }
  }
  goals += rows.filter(({ goal }) => goal !== null).length;
  missed += rows.filter((row) => missedBy(row) > allowed).length;
}
console.log(
  missed === 0 ? `\nAll ${goals} goals are met.` : `\n${missed} of ${goals} goals are missed.`,
);
process.exitCode = missed === 0 ? 0 : 1;
