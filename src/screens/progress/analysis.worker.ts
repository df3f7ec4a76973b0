import type { GroupCounts } from "../../../shared/api/analysis.ts";
import { type FromWorker, runJob, type ToWorker } from "./analysis-job.ts";

// Holds the newest counts, so that going from one student to the next sends only a name.
let held: { readonly number: number; readonly counts: GroupCounts } | null = null;

/** Progress is told this often at most, in ms: what passes faster nobody reads. */
const tellMs = 100;

const answer = (message: FromWorker) => self.postMessage(message);

self.addEventListener("message", ({ data }: MessageEvent<ToWorker>) => {
  if (data.kind === "counts") {
    held = data;
    return;
  }
  const { ask, number, job } = data;
  if (held?.number !== number) {
    answer({ kind: "failed", ask, message: "The counts of this question are no longer held." });
    return;
  }
  const start = performance.now();
  try {
    let toldMs = start;
    const done = runJob(held.counts, job, (progress) => {
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
