import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { FromWorker, ToWorker } from "../../../../src/reading/analysis-job.ts";
import type { Asked } from "../../../../src/reading/analysis-line.ts";
import { groupCounts } from "../../shared/reading/builders.ts";

// Here nothing is built; the address is as a build names it.
vi.mock("../../../../src/reading/analysis.worker.ts?worker&url", () => ({
  default: "/assets/analysis.worker-built.js",
}));

/** Takes the worker's place: keeps what it is told, and answers nothing by itself. */
class ToldWorker extends EventTarget {
  static told: ToWorker[] = [];
  static newest: ToldWorker | null = null;
  constructor() {
    super();
    ToldWorker.newest = this;
  }
  postMessage(message: ToWorker) {
    ToldWorker.told.push(message);
  }
  terminate() {}
  say(data: FromWorker) {
    this.dispatchEvent(new MessageEvent("message", { data }));
  }
}

let askWorker: typeof import("../../../../src/reading/analysis-line.ts").askWorker;

beforeEach(async () => {
  ToldWorker.told = [];
  made = 0;
  vi.stubGlobal("Worker", ToldWorker);
  vi.resetModules();
  ({ askWorker } = await import("../../../../src/reading/analysis-line.ts"));
});
afterEach(() => vi.unstubAllGlobals());

const kinds = () => ToldWorker.told.map(({ kind }) => kind);
let made = 0;
/** What a group's logs say, as the page numbers it. */
function someCounts(): Asked {
  const { group, students, phases, daysOff, today, ...logged } = groupCounts([], []);
  made += 1;
  return { number: made, logged, facts: { group, students, phases, daysOff, today } };
}
const ask = (counts: Asked) => void askWorker(counts, { kind: "next" });

it("gives the worker each group's counts once, however often another group is asked about between", () => {
  const [one, other] = [someCounts(), someCounts()];
  for (const counts of [one, other, one, other]) ask(counts);
  expect(kinds()).toEqual(["counts", "job", "counts", "job", "job", "job"]);
  const numbers = ToldWorker.told.flatMap((each) => (each.kind === "job" ? [each.number] : []));
  expect(numbers).toEqual([1, 2, 1, 2]);
});

it("sends no counts again because a phase moved: what is little goes with each question", () => {
  const counts = someCounts();
  ask(counts);
  const moved = groupCounts([], [], { today: "2026-10-01" });
  ask({ ...counts, facts: moved });
  expect(kinds()).toEqual(["counts", "job", "job"]);
  expect(ToldWorker.told.at(-1)).toMatchObject({ number: 1, facts: { today: "2026-10-01" } });
});

it("has it forget the counts that were not asked about longest, and gives them anew when they are", () => {
  const many = Array.from({ length: 6 }, someCounts);
  for (const counts of many) ask(counts);
  const [first, second] = many;
  if (first === undefined || second === undefined) throw new Error("too few");
  ask(first);
  ask(someCounts());
  expect(ToldWorker.told.filter(({ kind }) => kind === "forget")).toEqual([
    { kind: "forget", number: 2 },
  ]);
  ToldWorker.told = [];
  ask(first);
  expect(kinds()).toEqual(["job"]);
  ask(second);
  expect(kinds()).toEqual(["job", "forget", "counts", "job"]);
});

it("opens another worker when one breaks down, and gives it everything again", async () => {
  const counts = someCounts();
  const failed = askWorker(counts, { kind: "next" });
  ToldWorker.newest?.dispatchEvent(new Event("error"));
  await expect(failed).rejects.toThrow("could not be computed");
  ToldWorker.told = [];
  const answered = askWorker(counts, { kind: "next" });
  expect(kinds()).toEqual(["counts", "job"]);
  ToldWorker.newest?.say({ kind: "failed", ask: 2, message: "No." });
  await expect(answered).rejects.toThrow("No.");
});
