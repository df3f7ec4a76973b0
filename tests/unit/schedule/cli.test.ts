import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { CommandError } from "../../../electron/commands/command.ts";
import { cues } from "../../../electron/commands/cues.ts";
import { formatClock, formatDuration, parseDuration } from "../../../electron/commands/duration.ts";
import { planProblemLine } from "../../../electron/commands/plan-problem-line.ts";
import { chimeFolder } from "../../../electron/recording/chime-folder.ts";
import { checkPlan } from "../../../shared/plan/check-plan.ts";
import { firstPlan, planSettingsSchema } from "../../../shared/plan/plan.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";

const cliPath = fileURLToPath(new URL("../../../electron/cli.ts", import.meta.url));

function cli(...args: string[]) {
  return spawnSync(process.execPath, [cliPath, ...args], { encoding: "utf8" });
}

async function printed(...args: string[]): Promise<string> {
  let text = "";
  await cues.run(args, {
    write: (more) => {
      text += more;
    },
  });
  return text;
}

describe("lengths of time", () => {
  it.each([
    ["90", 90],
    ["90s", 90],
    ["2m", 120],
    ["2min", 120],
    ["1m30s", 90],
    ["1m30", 90],
    ["1.5m", 90],
    ["1h", 3600],
    ["1h5m", 3900],
    ["1:30", 90],
    ["1:05:00", 3900],
    ["0.5s", 0.5],
  ])("read %s as %f s", (text, seconds) => {
    expect(parseDuration("mean", text)).toBe(seconds);
  });

  it.each(["", "x", "-5", "2 m", "m", "1:5", "1:2:3:04", "5d", "1e3"])("refuse %j", (text) => {
    expect(() => parseDuration("mean", text)).toThrow(CommandError);
  });

  it.each([
    [0, "0s", "0:00.0"],
    [20, "20s", "0:20.0"],
    [77.6, "1m17.6s", "1:17.6"],
    [3600, "1h", "1:00:00.0"],
    [3725.96, "1h2m5.96s", "1:02:06.0"],
    [59.96, "59.96s", "1:00.0"],
  ])("write %f s as %s and %s", (seconds, duration, clock) => {
    expect(formatDuration(seconds)).toBe(duration);
    expect(formatClock(seconds)).toBe(clock);
    expect(parseDuration("mean", duration)).toBeCloseTo(seconds, 9);
  });
});

describe("cli cues", () => {
  it("prints seed, plan, cues and summary as JSON", async () => {
    const text = await printed("--mean", "2m", "--length", "20m", "--seed", "abc", "--json");
    const result: { plan: unknown; summary: unknown } = JSON.parse(text);
    expect(Object.keys(result)).toEqual(["seed", "plan", "cues", "summary"]);
    expect(planSettingsSchema.parse(result.plan)).toEqual(firstPlan);
    expect(result).toMatchObject({ seed: "abc", cues: sessionSchedule(firstPlan, "abc").cues });
    expect(result.summary).toEqual({
      count: 9,
      expectedCount: 10,
      mostLikelyCount: 16,
      shortestGapSeconds: 31.531,
      meanGapSeconds: 111.093,
      longestGapSeconds: 223.377,
      guess: { verdict: "hardToGuess", beatsChanceBy: 0.05, floorGivesAway: 0, method: "exact" },
    });
  });

  it("prints one line a cue as CSV", async () => {
    const lines = (await printed("--seed", "abc", "--csv")).trimEnd().split("\n");
    expect(lines[0]).toBe("cue,seconds,clock");
    expect(lines[1]).toBe("1,77.6,1:17.6");
    expect(lines).toHaveLength(10);
  });

  it("takes every option of the plan", async () => {
    const options =
      "--law uniform --mean 90s --length 30m --shortest 30s --longest 3m --lead-in 1m --end-margin 2m --floor 5 --seed all --chime wood --volume 0.3";
    const { plan }: { plan: unknown } = JSON.parse(await printed(...options.split(" "), "--json"));
    expect(plan).toEqual({
      ...firstPlan,
      law: "uniform",
      meanSeconds: 90,
      lengthSeconds: 1800,
      shortestGapSeconds: 30,
      longestGapSeconds: 180,
      leadInSeconds: 60,
      endMarginSeconds: 120,
      fewestCues: 5,
      chime: "wood",
      volume: 0.3,
    });
  });

  it("warns on the page when a plan is predictable", async () => {
    expect(await printed("--law", "fixed", "--seed", "a")).toContain("PREDICTABLE");
    expect(await printed("--seed", "a")).toContain("Hard to guess");
  });

  it("takes a new seed each time and prints it, and can give a student's own cues", async () => {
    expect(await printed("--csv")).not.toBe(await printed("--csv"));
    const own = await printed("--seed", "abc", "--student", "student-1", "--csv");
    expect(own).toContain("1,150.363,2:30.4");
  });

  it("lets the unasked-for shortest gap give way to a short mean", async () => {
    const { plan }: { plan: { shortestGapSeconds: number } } = JSON.parse(
      await printed("--mean", "30s", "--json"),
    );
    expect(plan.shortestGapSeconds).toBe(5);
  });

  it.each([
    [["--mean", "20", "--shortest", "20"], /above the shortest gap.*--shortest 10s/],
    [["--floor", "50"], /--floor 10/],
    [["--floor", "many"], /"many" is not a number/],
    [["--volume", ""], /not a number/],
    [["--seed", ""], /--seed/],
    [["--law", "poisson"], /exponential, uniform, balanced, fixed/],
    [["--chime", "gong"], /bell/],
    [["--json", "--csv"], /not both/],
    [["--bogus"], /Unknown option '--bogus'/],
    [["extra"], /extra/],
    [["--floor", "-3"], /--floor/],
  ])("refuses %j in one line", async (args, message) => {
    const failure = await printed(...args).catch((error: unknown) => error);
    expect(failure).toBeInstanceOf(CommandError);
    expect(failure).toMatchObject({ exitCode: 2, message: expect.stringMatching(message) });
    expect(failure).toMatchObject({ message: expect.not.stringContaining("\n") });
  });
});

describe("cli cues --wav", () => {
  const folder = mkdtempSync(join(tmpdir(), "cues-"));
  afterAll(() => rmSync(folder, { recursive: true }));

  const short = ["--length", "1m", "--mean", "15s", "--shortest", "5s", "--seed", "abc"];

  it("writes a recording whose chimes begin at the cues, to the sample", async () => {
    const path = join(folder, "session.wav");
    const options = [...short, "--json", "--wav", path, "--no-announcements", "--volume", "1"];
    const { cues: times }: { cues: number[] } = JSON.parse(await printed(...options));
    expect(times.length).toBeGreaterThan(1);

    // Read without the project's own reader: 44 bytes of header, then 16-bit samples, 48 000 a second.
    const file = readFileSync(path);
    expect(file.toString("latin1", 0, 4)).toBe("RIFF");
    expect(file.readUInt32LE(24)).toBe(48_000);
    const sample = (index: number) => file.readInt16LE(44 + 2 * index);
    const chime = readFileSync(join(chimeFolder(), `${firstPlan.chime}.wav`));
    for (const time of times) {
      const start = Math.round(time * 48_000);
      const room = Math.min(2000, 60 * 48_000 - start);
      const written = Array.from({ length: room }, (_, index) => sample(start + index));
      const shipped = Array.from({ length: room }, (_, index) => chime.readInt16LE(44 + 2 * index));
      expect(written).toEqual(shipped);
      // The chime before has died away, so this one's begin is not an accident of overlap.
      expect(sample(start - 1)).toBe(0);
    }
  });

  it("says in one line when the file cannot be written, and exits 1", async () => {
    const path = join(folder, "no such folder", "session.wav");
    const failure = await printed(...short, "--wav", path).catch((error: unknown) => error);
    expect(failure).toBeInstanceOf(CommandError);
    expect(failure).toMatchObject({
      exitCode: 1,
      message: expect.stringContaining("no such folder"),
    });
  });
});

describe("the command line as a program", () => {
  it("prints the cues and exits 0", () => {
    const { status, stdout, stderr } = cli("cues", "--seed", "abc");
    expect(status).toBe(0);
    expect(stderr).toBe("");
    expect(stdout).toContain("1:17.6");
  });

  it.each([[["cues", "--mean", "nonsense"]], [["nonsense"]], [[]], [["toString"]]])(
    "exits 2 with one line on stderr and nothing on stdout for %j",
    (args) => {
      const { status, stdout, stderr } = cli(...args);
      expect(status).toBe(2);
      expect(stdout).toBe("");
      expect(stderr.trimEnd().split("\n")).toHaveLength(1);
    },
  );

  it("lists its commands, and all options of a command", () => {
    expect(cli("--help").stdout).toContain("cues");
    const { status, stdout } = cli("cues", "--help");
    expect(status).toBe(0);
    for (const option of "law mean length shortest longest lead-in end-margin floor seed student json csv wav chime volume no-announcements help".split(
      " ",
    )) {
      expect(stdout).toContain(`--${option} `);
    }
  });
});

describe("the line for an impossible plan", () => {
  it("names the options that would mend it", () => {
    const settings = { ...firstPlan, lengthSeconds: 30, volume: 0, longestGapSeconds: 50 };
    const [problem] = checkPlan(settings);
    if (problem === undefined) throw new Error("The plan should have been refused.");
    expect(planProblemLine(problem, settings)).toBe(
      "The session is shorter than one minute. Nearest possible: --length 1m --mean 1m --longest 1m40s a volume above 0.",
    );
  });
});
