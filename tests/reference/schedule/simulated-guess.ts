import type { IntervalLaw } from "../../../shared/schedule/interval-law.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";

/**
 * A listener without a clock, played second by second instead of computed: elapsed time is felt with a
 * normal error of 15 % in its logarithm, drawn anew each moment. The listener learns from the first half
 * of the moments which felt times have most cues, and is on the alert a quarter of the time in the second
 * half. Returns the share of cues caught.
 */
export function simulatedGuess(law: IntervalLaw): number {
  const stream = randomStream(law.name, "listener");
  const normal = () => Math.sqrt(-2 * Math.log(1 - stream())) * Math.cos(2 * Math.PI * stream());
  const feltBin = (seconds: number) =>
    Math.round(Math.log(seconds * Math.exp(0.15 * normal())) * 10);
  const nextGap = law.gaps(stream);

  /** Moments one second apart, by felt time; and those at which a cue came. */
  const listen = (cues: number) => {
    const time = new Map<number, number>();
    const hits = new Map<number, number>();
    for (let cue = 0; cue < cues; cue++) {
      const gap = nextGap();
      for (let age = stream(); age < gap; age += 1) add(time, feltBin(age));
      add(hits, feltBin(gap));
    }
    return { time, hits };
  };

  const learned = listen(20_000);
  const rate = (bin: number) => (learned.hits.get(bin) ?? 0) / (learned.time.get(bin) ?? 1);
  const bins = [...learned.time.keys()].sort((one, other) => rate(other) - rate(one));

  const tested = listen(20_000);
  let timeLeft = 0.25 * total(tested.time);
  let caught = 0;
  for (const bin of bins) {
    const time = tested.time.get(bin) ?? 0;
    const taken = time === 0 ? 1 : Math.min(1, timeLeft / time);
    caught += taken * (tested.hits.get(bin) ?? 0);
    timeLeft -= taken * time;
    if (timeLeft <= 0) break;
  }
  return caught / total(tested.hits);
}

function add(counts: Map<number, number>, key: number): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

function total(counts: Map<number, number>): number {
  return [...counts.values()].reduce((sum, count) => sum + count, 0);
}
