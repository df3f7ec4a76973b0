import type { GroupFacts, LoggedCounts } from "../../shared/record/group-counts.ts";
import { startWorker } from "../parts/start-worker.ts";
import programAddress from "./analysis.worker.ts?worker&url";
import type {
  AnalysisAnswer,
  AnalysisJob,
  FromWorker,
  JobProgress,
  ToWorker,
} from "./analysis-job.ts";

interface Waiting {
  readonly done: (answer: AnalysisAnswer) => void;
  readonly failed: (error: Error) => void;
}

let worker: Worker | null = null;
/** The numbers of the counts that the worker holds; the last used come last. */
const sent = new Set<number>();
/** It holds those of so many groups: what Today needs, and a small part of the memory. */
const mostHeld = 6;
let asked = 0;
const waiting = new Map<number, Waiting>();
let progress: JobProgress | null = null;
const watchers = new Set<() => void>();

/** How far the job at hand is; null while none has said so. */
export const progressNow = (): JobProgress | null => progress;

/** Told whenever that changes; returns the way to stop. */
export function watchProgress(watcher: () => void): () => void {
  watchers.add(watcher);
  return () => watchers.delete(watcher);
}

function tellProgress(now: JobProgress | null): void {
  if (now === progress) return;
  progress = now;
  for (const watcher of [...watchers]) watcher();
}

/** What is read: what the logs say, under its number, and the little that goes with each question. */
export interface Asked {
  readonly number: number;
  readonly logged: LoggedCounts;
  readonly facts: GroupFacts;
}

/** Computes off the page's thread, so that no statistic ever holds up a press or a cue. */
export function askWorker(
  { number, logged, facts }: Asked,
  job: AnalysisJob,
): Promise<AnalysisAnswer> {
  const line = worker ?? openWorker();
  give(line, number, logged);
  asked += 1;
  const ask = asked;
  return new Promise((done, failed) => {
    waiting.set(ask, { done, failed });
    send(line, { kind: "job", ask, number, facts, job });
  });
}

/** Gives the worker counts that it does not hold, and has it forget those that were not asked about longest. */
function give(line: Worker, number: number, logged: LoggedCounts): void {
  const isHeld = sent.delete(number);
  if (!isHeld) {
    for (const old of sent) {
      if (sent.size < mostHeld) break;
      sent.delete(old);
      send(line, { kind: "forget", number: old });
    }
    send(line, { kind: "counts", number, logged });
  }
  sent.add(number);
}

function openWorker(): Worker {
  const opened = startWorker(programAddress);
  opened.addEventListener("message", ({ data }: MessageEvent<FromWorker>) => settle(data));
  opened.addEventListener("error", () => giveUp());
  worker = opened;
  return opened;
}

const send = (line: Worker, message: ToWorker) => line.postMessage(message);

function settle(message: FromWorker): void {
  if (message.kind === "progress") {
    tellProgress(message.progress);
    return;
  }
  tellProgress(null);
  const asker = waiting.get(message.ask);
  waiting.delete(message.ask);
  if (message.kind === "failed") {
    asker?.failed(new Error(message.message));
    return;
  }
  // Read by the pictures and benches; says how long the statistics took, not how long they waited.
  performance.mark("analysis-done", { detail: { kind: message.answer.kind, ms: message.ms } });
  asker?.done(message.answer);
}

/** A worker that could not start or broke down is dropped; the next question opens another. */
function giveUp(): void {
  worker?.terminate();
  worker = null;
  sent.clear();
  tellProgress(null);
  for (const { failed } of waiting.values())
    failed(new Error("The statistics could not be computed."));
  waiting.clear();
}
