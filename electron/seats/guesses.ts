import { joiningPausedMs, wrongCodesAMinute, wrongCodesAnHour } from "../../shared/seats/limits.ts";

export type GuessVerdict = "allowed" | "wait" | "paused";

export interface Guesses {
  /** Whether an address may try a code now. */
  verdict(address: string): GuessVerdict;
  wrong(address: string): void;
}

/**
 * Counts wrong codes: some an address and minute, more an hour from everywhere. Slips stay valid whatever is
 * guessed; only joining waits.
 *
 * @param nowMs counts evenly, in ms
 * @param paused is told when joining pauses, and for how long in ms
 */
export function guesses(nowMs: () => number, paused: (ms: number) => void): Guesses {
  const byAddress = new Map<string, number[]>();
  let all: number[] = [];
  let pausedUntil = Number.NEGATIVE_INFINITY;
  const since = (times: readonly number[], ms: number) => times.filter((at) => at > nowMs() - ms);
  return {
    verdict(address) {
      if (nowMs() < pausedUntil) return "paused";
      const lately = since(byAddress.get(address) ?? [], 60_000);
      return lately.length >= wrongCodesAMinute ? "wait" : "allowed";
    },
    wrong(address) {
      for (const [each, times] of byAddress) {
        if (since(times, 60_000).length === 0) byAddress.delete(each);
      }
      byAddress.set(address, [...since(byAddress.get(address) ?? [], 60_000), nowMs()]);
      all = [...since(all, 3_600_000), nowMs()];
      if (all.length < wrongCodesAnHour) return;
      all = [];
      pausedUntil = nowMs() + joiningPausedMs;
      paused(joiningPausedMs);
    },
  };
}
