import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openStore } from "../../electron/store/store.ts";
import { fillFiveYears, size } from "./five-years.ts";

// Counting five school years of one class out of its logs: the first time after the start, and again. Once with
// cues for the class, and once with own cues, whose sessions hold 720 rows of cues beside the answers.

const timed = <Result>(work: () => Result): readonly [ms: number, result: Result] => {
  const from = performance.now();
  const result = work();
  return [performance.now() - from, result];
};
const show = (what: string, ms: readonly number[]) =>
  console.log(
    `${what}: ${ms.map((each) => each.toFixed(0)).join(", ")} ms (best ${Math.min(...ms).toFixed(1)})`,
  );

function measure(cueing: "class" | "own"): void {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-bench-"));
  try {
    const whose = cueing === "own" ? "own cues for each student" : "cues each";
    console.log(`${size.students} students, ${size.sessions} sessions, ${size.cues} ${whose}`);
    const groupId = fillFiveYears(folder, undefined, cueing);
    const opened: number[] = [];
    const first: number[] = [];
    const again: number[] = [];
    const ahead: number[] = [];
    let bytes = 0;
    for (let round = 0; round < 5; round++) {
      const open = () => openStore({ folder, now: () => Date.UTC(2026, 8, 1) });
      let [openMs, store] = timed(open);
      opened.push(openMs);
      first.push(timed(() => store.counts.ofGroup(groupId))[0]);
      const [ms, counts] = timed(() => store.counts.ofGroup(groupId));
      again.push(ms);
      bytes = JSON.stringify(counts).length;
      store.close();
      store = open();
      for (let left = true; left; ) {
        const [stepMs, more] = timed(() => store.counts.countAhead(20));
        ahead.push(stepMs);
        left = more;
      }
      if (round === 4)
        console.log(`daily backup: ${timed(() => store.backUpIfDue())[0].toFixed(0)} ms`);
      store.close();
    }
    show("opening the store", opened);
    show("first count after a start", first);
    show("count again", again);
    const sorted = ahead.toSorted((a, b) => a - b);
    const half = sorted[Math.floor(sorted.length / 2)] ?? 0;
    console.log(
      `counting 20 sessions ahead: median ${half.toFixed(1)} ms, longest ${Math.max(...ahead).toFixed(1)} ms`,
    );
    console.log(`answer as JSON: ${(bytes / 1e6).toFixed(2)} MB`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

// `own` asks for own cues alone.
if (process.argv[2] !== "own") measure("class");
measure("own");
