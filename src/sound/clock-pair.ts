import type { ClockPair } from "./clock-map.ts";

/** What a context says of its clock at one moment. */
export interface ContextClock {
  /** The moment that is being rendered, in seconds. */
  readonly currentTime: number;
  /** From rendering to the loudspeaker, in seconds; 0 or absent where the browser does not say. */
  readonly outputLatency?: number;
  /** The browser's own word on what is heard when; some give one that is not so. */
  readonly timestamp: { readonly contextTime?: number; readonly performanceTime?: number };
}

/** In a context's first second timestamps were seen 700 ms off. */
const youngSeconds = 1;
/** A timestamp further from the present than this was true before a pause, or never. */
const staleMs = 1_000;
/**
 * From rendering to the loudspeaker where the browser gives 0. WebKitGTK 2.50 was heard some 15 ms after the
 * moment that it rendered in one recording of PulseAudio's null sink, and 54 to 64 ms in another; this lies
 * between, so that a cue is written down at most some 30 ms off.
 */
const unsaidLatencySeconds = 0.035;

/**
 * What is heard at this moment, on both clocks. The browser's timestamp says it smoothly, with the output
 * latency in it, and is believed where it is no worse than the latency alone: not in the context's first
 * second; not where it lies far from the present (WebKitGTK's runs ahead by the context's own age); not where
 * it leaves out the latency that the context itself gives (Firefox takes it off both of its moments, so that
 * it cancels out).
 *
 * Example: clockPairOf({ currentTime: 10, outputLatency: 0.04, timestamp: {} }, 5000) // { audioSeconds: 9.96, pageMs: 5000 }
 *
 * @param nowMs performance.now()
 */
export function clockPairOf(clock: ContextClock, nowMs: number): ClockPair {
  const { currentTime, timestamp } = clock;
  const said = clock.outputLatency ?? 0;
  const { contextTime = 0, performanceTime = 0 } = timestamp;
  const isYoung = currentTime < youngSeconds || contextTime === 0 || performanceTime === 0;
  const aheadMs = performanceTime - nowMs;
  // How long after its rendering a sound is heard, by the timestamp.
  const impliedMs = (currentTime - contextTime) * 1_000 + aheadMs;
  if (!isYoung && Math.abs(aheadMs) < staleMs && impliedMs > 0 && impliedMs >= said * 500) {
    return { audioSeconds: contextTime, pageMs: performanceTime };
  }
  const latency = said > 0 ? said : unsaidLatencySeconds;
  return { audioSeconds: currentTime - latency, pageMs: nowMs };
}
