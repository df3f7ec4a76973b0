import { theilSen } from "../../../shared/statistics/theil-sen.ts";

/** One cue that was heard: when it was due, and how much later it was heard, in ms. */
export interface HeardCue {
  readonly dueMs: number;
  readonly errorMs: number;
}

export interface Drift {
  /** How much faster or slower the recorder's clock runs than the one cues are planned on. */
  readonly partsPerMillion: number;
  /** What is left of each error without the drift, in the order given. */
  readonly residualMs: readonly number[];
}

/**
 * Fits the recorder's clock by Theil and Sen's line: the sink's clock and the computer's differ by some parts
 * in a million, which grows with the recording and is nothing that the app does. Few cues, or all at one
 * moment, have no drift.
 */
export function fitDrift(cues: readonly HeardCue[]): Drift {
  const inOrder = cues.toSorted((a, b) => a.dueMs - b.dueMs);
  const line = theilSen({
    x: Float64Array.from(inOrder, ({ dueMs }) => dueMs),
    y: Float64Array.from(inOrder, ({ errorMs }) => errorMs),
  });
  const slope = line.kind === "enough" ? line.slope : 0;
  const [first] = inOrder;
  const since = (dueMs: number) => dueMs - (first?.dueMs ?? 0);
  return {
    partsPerMillion: slope * 1e6,
    residualMs: cues.map(({ dueMs, errorMs }) => errorMs - slope * since(dueMs)),
  };
}
