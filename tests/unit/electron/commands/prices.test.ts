import { describe, expect, it } from "vitest";
import { prices } from "../../../../electron/commands/prices.ts";

async function printed(...args: string[]): Promise<string> {
  let text = "";
  await prices.run(args, {
    write: (more) => {
      text += more;
    },
  });
  return text;
}

const first = ["--law", "exponential", "--mean", "2m", "--length", "20m", "--shortest", "20s"];
const student = ["--rate", ".8", "--answers", ".95", "--dispersion", "1.6"];
const points = ["--sessions", "3", "--per-mark", "0", "--per-on", "1"];

describe("cli prices", () => {
  it("prints mean, variance, percentiles and chances of a session and a day, and the bands", async () => {
    const found = JSON.parse(await printed(...first, ...student, ...points, "--json"));
    // The values of tests/reference/points/income.test.ts.
    expect(found.expectedCues).toBeCloseTo(9.8473, 3);
    expect(found.session).toMatchObject({ q10: 4, q90: 11 });
    expect(found.session.mean).toBeCloseTo(7.484, 3);
    expect(found.session.variance).toBeCloseTo(6.92, 3);
    expect(found.session.none).toBeCloseTo(0.001, 3);
    expect(found.session.atLeastTwo).toBeCloseTo(0.995, 3);
    expect(found.day).toMatchObject({ q10: 17, q50: 22, q90: 28 });
    expect(found.bands).toMatchObject({ low: 17, promiseKept: true });
    expect(found.change).toBeNull();
    expect(found.plan.earning.rules).toMatchObject({ mark: 0, on: 1 });
  });

  it("says in words what to change where no price keeps the promise", async () => {
    const weak = ["--rate", ".3", "--answers", ".8", "--dispersion", "1.6", "--exchanges", "3"];
    const page = await printed(...first, ...weak, "--per-mark", "0");
    expect(page).toContain("at 85 of 100 exchanges");
    expect(page).toContain("pay a point for each recorded mark");
  });

  it.each([
    [["--rate", "1.2"], "--rate 1.2: write a number from 0 to 1."],
    [["--sessions", "0"], "--sessions 0: write a number from 1 to 12."],
    [["--dispersion", "-1"], '--dispersion: "-1" is not a number such as 1.6.'],
    [["--given", "x"], '--given: "x" is not a number such as 1.6.'],
    [["--mean", "1h"], "--length 20m is shorter than one interval"],
    [["--price", "3"], "See cli prices --help."],
  ])("%j is refused", async (args, message) => {
    await expect(printed(...args)).rejects.toThrow(message);
  });
});
