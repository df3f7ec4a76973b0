import { describe, expect, it } from "vitest";
import { guesses } from "../../../../electron/seats/guesses.ts";

describe("wrong codes", () => {
  it("wait a minute after five from one address, while another goes on", () => {
    let now = 0;
    const wrong = guesses(
      () => now,
      () => undefined,
    );
    for (let tries = 0; tries < 5; tries += 1) {
      expect(wrong.verdict("a")).toBe("allowed");
      wrong.wrong("a");
      now += 1_000;
    }
    expect(wrong.verdict("a")).toBe("wait");
    expect(wrong.verdict("b")).toBe("allowed");
    now = 60_001;
    expect(wrong.verdict("a")).toBe("allowed");
  });

  it("pause joining for ten minutes after fifty in an hour, from wherever, and then begin anew", () => {
    let now = 0;
    const paused: number[] = [];
    const wrong = guesses(
      () => now,
      (ms) => paused.push(ms),
    );
    for (let tries = 0; tries < 50; tries += 1) {
      expect(wrong.verdict(`a${tries}`)).toBe("allowed");
      wrong.wrong(`a${tries}`);
      now += 60_000;
    }
    expect(paused).toEqual([600_000]);
    expect(wrong.verdict("new")).toBe("paused");
    now += 600_000;
    expect(wrong.verdict("new")).toBe("allowed");
  });

  it("of more than an hour ago count no more", () => {
    let now = 0;
    const paused: number[] = [];
    const wrong = guesses(
      () => now,
      (ms) => paused.push(ms),
    );
    for (let tries = 0; tries < 49; tries += 1) wrong.wrong(`a${tries}`);
    now = 3_600_001;
    wrong.wrong("b");
    expect(paused).toEqual([]);
  });
});
