import {
  type FromReckoner,
  type Reckoned,
  type Reckoning,
  reckon,
  type ToReckoner,
} from "./compute.ts";

interface Waiting {
  readonly reckoning: Reckoning;
  readonly done: (reckoned: Reckoned) => void;
  readonly fail: (problem: unknown) => void;
}

let worker: Worker | null = null;
let asked = 0;
const waiting = new Map<number, Waiting>();

/**
 * Reckons off the page's thread. A worker that cannot run only costs a pause: the page does it then.
 *
 * Rejects with what `reckon` throws.
 */
export function reckonAside(reckoning: Reckoning): Promise<Reckoned> {
  const line = worker ?? openWorker();
  asked += 1;
  const message: ToReckoner = { ask: asked, reckoning };
  return new Promise((done, fail) => {
    waiting.set(message.ask, { reckoning, done, fail });
    line.postMessage(message);
  });
}

function openWorker(): Worker {
  const opened = new Worker(new URL("./compute.worker.ts", import.meta.url), { type: "module" });
  opened.addEventListener("message", ({ data }: MessageEvent<FromReckoner>) => {
    waiting.get(data.ask)?.done(data.reckoned);
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

/** Each on its own: what cannot be reckoned must not leave the others without their answer. */
function answerHere({ reckoning, done, fail }: Waiting): void {
  try {
    done(reckon(reckoning));
  } catch (problem) {
    fail(problem);
  }
}
