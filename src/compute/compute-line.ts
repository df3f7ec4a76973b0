import { startWorker } from "../parts/start-worker.ts";
import {
  type Computation,
  type ComputedAside,
  compute,
  type FromWorker,
  type ToWorker,
} from "./compute.ts";
import programAddress from "./compute.worker.ts?worker&url";

interface Waiting {
  readonly computation: Computation;
  readonly done: (computed: ComputedAside) => void;
  readonly fail: (problem: unknown) => void;
}

let worker: Worker | null = null;
let asked = 0;
const waiting = new Map<number, Waiting>();

/**
 * Computes off the page's thread. A worker that cannot run only costs a pause: the page does it then.
 *
 * Rejects with what `compute` throws.
 */
export function computeAside(computation: Computation): Promise<ComputedAside> {
  const line = worker ?? openWorker();
  asked += 1;
  const message: ToWorker = { ask: asked, computation };
  return new Promise((done, fail) => {
    waiting.set(message.ask, { computation, done, fail });
    line.postMessage(message);
  });
}

function openWorker(): Worker {
  const opened = startWorker(programAddress);
  opened.addEventListener("message", ({ data }: MessageEvent<FromWorker>) => {
    waiting.get(data.ask)?.done(data.computed);
    waiting.delete(data.ask);
  });
  opened.addEventListener("error", () => doItHere(opened));
  worker = opened;
  return opened;
}

function doItHere(broken: Worker): void {
  broken.terminate();
  worker = null;
  const left = [...waiting.values()];
  waiting.clear();
  for (const each of left) answerHere(each);
}

/** Each on its own: what cannot be computed must not leave the others without their answer. */
function answerHere({ computation, done, fail }: Waiting): void {
  try {
    done(compute(computation));
  } catch (problem) {
    fail(problem);
  }
}
