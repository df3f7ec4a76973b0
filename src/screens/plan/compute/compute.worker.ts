import { type FromReckoner, reckon, type ToReckoner } from "./compute.ts";

// An error ends up in the page's error listener, which reckons there instead.
self.addEventListener("message", ({ data }: MessageEvent<ToReckoner>) => {
  const answer: FromReckoner = { ask: data.ask, reckoned: reckon(data.reckoning) };
  self.postMessage(answer);
});
