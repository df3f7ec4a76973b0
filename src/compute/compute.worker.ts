import { compute, type FromWorker, type ToWorker } from "./compute.ts";

// An error ends up in the page's error listener, which computes there instead.
self.addEventListener("message", ({ data }: MessageEvent<ToWorker>) => {
  const answer: FromWorker = { ask: data.ask, computed: compute(data.computation) };
  self.postMessage(answer);
});
