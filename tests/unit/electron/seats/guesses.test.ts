import { describe, expect, it } from "vitest";
import { type Guesses, guesses } from "../../../../electron/seats/guesses.ts";

function setUp() {
  const clock = { now: 0 };
  const paused: number[] = [];
  const codes = guesses(
    () => clock.now,
    (ms) => paused.push(ms),
  );
  return { clock, paused, codes };
}

const wrong = (codes: Guesses, address: string) =>
  codes.tried(address, async (): Promise<string | null> => null);
const right = (codes: Guesses, address: string) => codes.tried(address, async () => "seat");
const howMany = (all: readonly string[], verdict: string) =>
  all.filter((each) => each === verdict).length;

describe("wrong codes", () => {
  it("wait a minute after five from one address, while another goes on", async () => {
    const { clock, codes } = setUp();
    for (let tries = 0; tries < 5; tries += 1) {
      expect(await wrong(codes, "a")).toBe("code");
      clock.now += 1_000;
    }
    expect(await right(codes, "a")).toBe("wait");
    expect(await right(codes, "b")).toBe("seat");
    clock.now = 60_001;
    expect(await right(codes, "a")).toBe("seat");
  });

  it("pause joining for ten minutes after fifty in an hour, from wherever, and then begin anew", async () => {
    const { clock, paused, codes } = setUp();
    for (let tries = 0; tries < 50; tries += 1) {
      expect(await wrong(codes, `a${tries}`)).toBe("code");
      clock.now += 60_000;
    }
    expect(paused).toEqual([600_000]);
    expect(await right(codes, "new")).toBe("paused");
    clock.now += 600_000;
    expect(await right(codes, "new")).toBe("seat");
  });

  it("of more than an hour ago count no more", async () => {
    const { clock, paused, codes } = setUp();
    for (let tries = 0; tries < 49; tries += 1) await wrong(codes, `a${tries}`);
    clock.now = 3_600_001;
    await wrong(codes, "b");
    expect(paused).toEqual([]);
  });

  it("are five of an address and fifty in all, also when they come at once", async () => {
    const { paused, codes } = setUp();
    const ofOne = await Promise.all(Array.from({ length: 60 }, () => wrong(codes, "a")));
    expect([howMany(ofOne, "code"), howMany(ofOne, "wait")]).toEqual([5, 55]);
    const ofAll = await Promise.all(Array.from({ length: 60 }, (_, at) => wrong(codes, `b${at}`)));
    expect([howMany(ofAll, "code"), howMany(ofAll, "paused")]).toEqual([45, 15]);
    expect(paused).toEqual([600_000]);
  });

  it("are counted alone: a whole class behind one router is let in, some at a time", async () => {
    const { codes } = setUp();
    let [open, most] = [0, 0];
    const look = async () => {
      open += 1;
      most = Math.max(most, open);
      await new Promise((resolve) => setTimeout(resolve, 1));
      open -= 1;
      return "seat";
    };
    const all = await Promise.all(Array.from({ length: 60 }, () => codes.tried("a", look)));
    expect(howMany(all, "seat")).toBe(60);
    expect(most).toBe(5);
  });

  it("are none where looking failed, and the next one is looked at", async () => {
    const { codes } = setUp();
    const fails = () => codes.tried("a", () => Promise.reject(new Error("No disk.")));
    const all = await Promise.allSettled(Array.from({ length: 8 }, fails));
    expect(all.every(({ status }) => status === "rejected")).toBe(true);
    expect(await right(codes, "a")).toBe("seat");
  });
});
