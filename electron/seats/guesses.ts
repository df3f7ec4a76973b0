import { joiningPausedMs, wrongCodesAMinute, wrongCodesAnHour } from "../../shared/seats/limits.ts";

/** What a code came to that opened nothing: it was wrong, or it was not looked at. */
export type GuessVerdict = "code" | "wait" | "paused";

export interface Guesses {
  /**
   * Looks a code up as soon as an address may try one. A code that is still being looked up counts as a
   * wrong one until its end, because looking takes a while and any number may come at once; a right one
   * has cost nothing then.
   *
   * @param look null for a code that nobody has
   */
  tried<Found>(address: string, look: () => Promise<Found | null>): Promise<Found | GuessVerdict>;
}

interface Waiting {
  readonly address: string;
  go(on: "now" | "wait" | "paused"): void;
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
  /** The addresses of codes that are being looked up, one for each code. */
  const open: string[] = [];
  let queue: Waiting[] = [];
  const since = (times: readonly number[], ms: number) => times.filter((at) => at > nowMs() - ms);

  /** Null while other codes have to be known first. */
  function verdict(address: string): "now" | "wait" | "paused" | null {
    if (nowMs() < pausedUntil) return "paused";
    const wrong = since(byAddress.get(address) ?? [], 60_000).length;
    if (wrong >= wrongCodesAMinute) return "wait";
    const besides = open.filter((each) => each === address).length;
    const inAll = since(all, 3_600_000).length + open.length;
    return wrong + besides < wrongCodesAMinute && inAll < wrongCodesAnHour ? "now" : null;
  }

  function letOn(): void {
    queue = queue.filter(({ address, go }) => {
      const on = verdict(address);
      if (on === null) return true;
      if (on === "now") open.push(address);
      go(on);
      return false;
    });
  }

  function countWrong(address: string): void {
    for (const [each, times] of byAddress) {
      if (since(times, 60_000).length === 0) byAddress.delete(each);
    }
    byAddress.set(address, [...since(byAddress.get(address) ?? [], 60_000), nowMs()]);
    all = [...since(all, 3_600_000), nowMs()];
    if (all.length < wrongCodesAnHour) return;
    all = [];
    pausedUntil = nowMs() + joiningPausedMs;
    paused(joiningPausedMs);
  }

  return {
    async tried(address, look) {
      const on = await new Promise<"now" | "wait" | "paused">((go) => {
        queue.push({ address, go });
        letOn();
      });
      if (on !== "now") return on;
      try {
        const found = await look();
        if (found === null) countWrong(address);
        return found ?? "code";
      } finally {
        open.splice(open.indexOf(address), 1);
        letOn();
      }
    },
  };
}
