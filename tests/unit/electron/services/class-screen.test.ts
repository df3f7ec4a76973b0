import { beforeEach, describe, expect, it } from "vitest";
import { Refusal } from "../../../../electron/services/base/refusal.ts";
import { classScreenHandlers } from "../../../../electron/services/class-screen.ts";
import type { Store } from "../../../../electron/store/store.ts";
import { manualClock } from "../../../support/manual-clock.ts";

const context = { clientId: "page", signal: new AbortController().signal };

let kept: string | null;
let clock: ReturnType<typeof manualClock>;
let desk: ReturnType<typeof classScreenHandlers>;
beforeEach(() => {
  kept = null;
  clock = manualClock({ speed: 60 });
  const settings = {
    hashedCode: () => kept,
    saveHashedCode: (hashed: string | null) => {
      kept = hashed;
    },
    // The code's two are all that is asked of the settings.
  } as unknown as Store["settings"];
  const changes = { publish: () => undefined };
  desk = classScreenHandlers({ settings }, changes as never, clock);
});

const leave = (code: string | null) =>
  Promise.resolve(desk.leave({ code }, context)).then(
    () => "left",
    (error: unknown) => {
      if (!(error instanceof Refusal)) throw error;
      return `${error.code} ${error.values.seconds}`;
    },
  );
const set = (code: string | null) => desk.setCode({ code }, context);

describe("the code of the way out", () => {
  it("is not needed where none is set", async () => {
    expect(desk.code(undefined, context)).toEqual({ hasCode: false });
    expect(await leave(null)).toBe("left");
    expect(await leave("1234")).toBe("left");
  });

  it("is asked for where one is set, and opens", async () => {
    expect(await set("4711")).toEqual({ hasCode: true });
    expect(await leave(null)).toBe("code-wrong 0");
    expect(await leave("4712")).toBe("code-wrong 0");
    expect(await leave("4711")).toBe("left");
    await set(null);
    expect(await leave(null)).toBe("left");
  });

  it("is kept as a salted hash only", async () => {
    await set("4711");
    const first = kept;
    expect(first).toMatch(/^scrypt\./);
    expect(first).not.toContain("4711");
    await set("4711");
    expect(kept).not.toBe(first);
    expect(await leave("4711")).toBe("left");
  });

  it("is checked slowly after wrong tries: 5, 10, 20, 40 s, then a minute each, in real time", async () => {
    await set("4711");
    const waits = [0, 0, 5, 10, 20, 40, 60, 60];
    for (const seconds of waits) {
      expect(await leave("0000")).toBe(`code-wrong ${seconds}`);
      if (seconds > 0) {
        // Neither a wrong nor the right code is looked at meanwhile.
        expect(await leave("4711")).toBe(`code-wait ${seconds}`);
        clock.advance(seconds * 1_000 - 1);
        expect(await leave("4711")).toBe("code-wait 1");
        clock.advance(1);
      }
    }
    expect(await leave("4711")).toBe("left");
    // And after the right one fingers may slip again.
    expect(await leave("0000")).toBe("code-wrong 0");
  });

  it("is not guessed by many tries at once", async () => {
    await set("0042");
    const tries = Array.from({ length: 60 }, (_, number) => leave(String(number).padStart(4, "0")));
    const answers = await Promise.all(tries);
    expect(answers.filter((answer) => answer.startsWith("code-wrong"))).toHaveLength(3);
    expect(answers).not.toContain("left");
  });

  it("does not count the question for it as a try", async () => {
    await set("4711");
    for (let times = 0; times < 10; times += 1) expect(await leave(null)).toBe("code-wrong 0");
    expect(await leave("4711")).toBe("left");
  });
});
