import type { LoggedCounts } from "../../shared/record/group-counts.ts";
import { type FromWorker, runJob, type ToWorker } from "./analysis-job.ts";

// Holds the counts it was given, so that going from one student to the next sends only a name.
const held = new Map<number, LoggedCounts>();

/** Progress is told this often at most, in ms: what passes faster nobody reads. */
const tellMs = 100;

const answer = (message: FromWorker) => self.postMessage(message);

self.addEventListener("message", ({ data }: MessageEvent<ToWorker>) => {
  if (data.kind === "counts") {
    held.set(data.number, data.logged);
    return;
  }
  if (data.kind === "forget") {
    held.delete(data.number);
    return;
  }
  const { ask, number, facts, job } = data;
  const logged = held.get(number);
  if (logged === undefined) {
    answer({ kind: "failed", ask, message: "The counts of this question are no longer held." });
    return;
  }
  const start = performance.now();
  try {
    let toldMs = start;
    const done = runJob({ ...logged, ...facts }, job, (progress) => {
      const nowMs = performance.now();
      if (nowMs - toldMs < tellMs) return;
      toldMs = nowMs;
      answer({ kind: "progress", ask, progress });
    });
    answer({ kind: "done", ask, answer: done, ms: performance.now() - start });
  } catch (error) {
    answer({
      kind: "failed",
      ask,
      message: error instanceof Error ? error.message : String(error),
    });
  }
});
