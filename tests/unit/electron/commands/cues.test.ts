import { spawnSync } from "node:child_process";
import { closeSync, existsSync, mkdtempSync, openSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { CommandError } from "../../../../electron/commands/command.ts";
import { cues } from "../../../../electron/commands/cues.ts";
import {
  formatClock,
  formatDuration,
  parseDuration,
} from "../../../../electron/commands/duration.ts";
import { planProblemLine } from "../../../../electron/commands/plan-problem-line.ts";
import { chimeFolder } from "../../../../electron/recording/chime-folder.ts";
import { firstPlan, planSettingsSchema } from "../../../../shared/plan/plan.ts";
import { checkPlan } from "../../../../shared/schedule/check-plan.ts";
import { sessionSchedule } from "../../../../shared/schedule/session-schedule.ts";

const cliPath = fileURLToPath(new URL("../../../../electron/cli.ts", import.meta.url));

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
    ["90:00", 5400],
    ["0:59.5", 59.5],
    ["0.5s", 0.5],
  ])("read %s as %f s", (text, seconds) => {
    expect(parseDuration("mean", text)).toBe(seconds);
  });

  it.each([
    "",
    "x",
    "-5",
    "2 m",
    "m",
    "1:5",
    "1:2:3:04",
    "5d",
    "1e3",
    "5:99",
    "1:70",
    "1:60",
    "1:60:00",
    "1:5:00",
    "1:05:60",
    ":30",
  ])("refuse %j", (text) => {
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
      expectedCount: 9.847,
      mostLikelyCount: 16,
      shortestGapSeconds: 31.531,
      meanGapSeconds: 111.093,
      longestGapSeconds: 223.377,
      guess: {
        verdict: "hardToGuess",
        beatsChanceBy: 0.05,
        floorGivesAway: 0,
        blockGivesAway: 0,
        method: "exact",
      },
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

  it("offers a nearest plan that can be typed in as it is printed", async () => {
    const options = ["--mean", "70", "--seed", "abc"];
    const failure = await printed(...options, "--longest", "2m").catch((error: unknown) => error);
    const offered = /Nearest possible: (.*)\./.exec(String(failure))?.[1]?.split(" ") ?? [];
    expect(offered).toEqual(["--longest", "2m8.334s"]);
    expect(await printed(...options, ...offered)).toContain("Seed abc");
  });

  it("warns on the page when a plan is predictable", async () => {
    expect(await printed("--law", "fixed", "--seed", "a")).toContain("PREDICTABLE");
    expect(await printed("--seed", "a")).toContain("Hard to guess");
  });

  it("takes a new seed each time and prints it, and can give a student's own cues", async () => {
    expect(await printed("--csv")).not.toBe(await printed("--csv"));
    const own = await printed("--seed", "abc", "--student", "student-1", "--csv");
    expect(own).toContain("1,150.363,2:30.4");
    expect(await printed("--seed", " abc ", "--student", "student-1")).toContain(
      "Seed abc, stream cues/student-1:",
    );
    expect(await printed("--seed", "abc")).toContain("Seed abc, stream cues:");
  });

  it("lets the unasked-for shortest gap give way to a short mean", async () => {
    const { plan }: { plan: { shortestGapSeconds: number } } = JSON.parse(
      await printed("--mean", "30s", "--json"),
    );
    expect(plan.shortestGapSeconds).toBe(5);
  });

  // Every option, with every kind of value it cannot take.
  it.each([
    [["--law", "poisson"], /^--law: "poisson" is not one of exponential, uniform, balanced, fixed/],
    [["--mean", "soon"], /^--mean: "soon" is not a length of time; write 90s, 2m or 1:30/],
    [["--mean", "-5"], /^--mean: "-5" is below zero; write a length of time such as 90s/],
    [["--mean", "-.5m"], /^--mean: "-.5m" is below zero/],
    [["--mean", "5:99"], /^--mean: "5:99" is not a length of time/],
    [["--mean", "--json"], /^--mean: write its value/],
    [["--mean"], /^--mean: write its value/],
    [["--mean", "3s"], /^--mean 3s leaves no time to answer; the minimum is 5s.*--mean 5s/],
    [["--mean", "30h"], /^--mean 30h: write a length from 0s to 24h/],
    [["--mean", "30m"], /^--length 20m is shorter than one interval, --mean 30m.*--mean 20m/],
    [["--mean", "20", "--shortest", "20"], /above the shortest gap.*--shortest 10s/],
    [["--mean", "5", "--length", "3h"], /^--mean 5s over --length 3h .*2000 cues.*--mean 6s/],
    [["--length", ""], /^--length: "" is not a length of time/],
    [["--length", "30s", "--mean", "20s"], /^--length 30s: a session lasts at least 1m/],
    [["--length", "4h"], /^--length 4h: a session lasts at most 3h.*--length 3h/],
    [["--shortest=-1"], /^--shortest: "-1" is below zero/],
    [["--shortest", "2m"], /^--mean 2m must be above the shortest gap, --shortest 2m/],
    [["--longest", "never"], /^--longest: "never" is not a length of time/],
    [["--longest", "2m"], /^--longest 2m must be above --mean 2m.*--longest 3m40s/],
    [
      ["--mean", "70", "--longest", "2m"],
      /^--longest 2m is too near --mean 1m10s; with --shortest 11.666s it must be at least 2m8.334s/,
    ],
    [
      ["--law", "uniform", "--longest", "3m"],
      /^--longest 3m: .*uniform intervals reach to 3m40s.*--longest 3m40s/,
    ],
    [["--lead-in", "5d"], /^--lead-in: "5d" is not a length of time/],
    [["--lead-in", "19m"], /^--lead-in 19m and --end-margin 0s leave less room.*--lead-in 18m/],
    [["--end-margin", "x"], /^--end-margin: "x" is not a length of time/],
    [["--end-margin", "25h"], /^--end-margin 25h: write a length from 0s to 24h/],
    [["--floor", "1.5"], /^--floor: "1.5" is not a whole number from 0 up, such as 5/],
    [["--floor", "many"], /^--floor: "many" is not a whole number/],
    [["--floor", "-3"], /^--floor: "-3" is not a whole number from 0 up/],
    [["--floor=-3"], /^--floor: "-3" is not a whole number/],
    [["--floor", "501"], /^--floor 501: write a whole number from 0 to 500/],
    [["--floor", "60"], /^--floor 60: the session has no room for so many cues.*--floor 10/],
    [["--floor", "14"], /^--floor 14: so many cues are too unlikely.*10 can be promised/],
    [["--seed", ""], /^--seed: write at least one letter or digit/],
    [["--seed", "a".repeat(81)], /^--seed: write at most 80 letters/],
    [["--student", ""], /^--student: write at least one letter or digit/],
    [["--student", "  "], /^--student: write at least one letter or digit/],
    [["--chime", "gong"], /^--chime: "gong" is not one of bell/],
    [["--volume", ""], /^--volume: "" is not a number from 0 to 1/],
    [["--volume", "-1"], /^--volume: "-1" is not a number from 0 to 1/],
    [["--volume", "loud"], /^--volume: "loud" is not a number from 0 to 1/],
    [["--volume", "2"], /^--volume 2: write a number from 0 to 1.*--volume 1/],
    [["--volume", "0"], /^--volume 0: no chime could be heard.*a volume above 0/],
    [["--wav", ""], /^--wav: name the file to write/],
    [["--wav"], /^--wav: write its value/],
    [["--json", "-5"], /^--json takes no value/],
    [["--json=yes"], /^--json takes no value/],
    [["--csv=yes"], /^--csv takes no value/],
    [["--no-announcements=yes"], /^--no-announcements takes no value/],
    [["--json", "--csv"], /^Choose --json or --csv, not both/],
    [["--bogus"], /Unknown option '--bogus'/],
    [["extra"], /extra/],
  ])("refuses %j in one line", async (args, message) => {
    const failure = await printed(...args).catch((error: unknown) => error);
    expect(failure).toBeInstanceOf(CommandError);
    expect(failure).toMatchObject({ exitCode: 2, message: expect.stringMatching(message) });
    expect(failure).toMatchObject({ message: expect.not.stringContaining("\n") });
    // Lengths as the options take them, and no name of a setting.
    expect(failure).toMatchObject({
      message: expect.not.stringMatching(/Seconds|\d{5,}|fewestCues/),
    });
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

  it.each([["cues"], ["analyse"], ["agreement"], []])("takes -h for --help: %s", (...command) => {
    const short = cli(...command, "-h");
    expect(short).toMatchObject({ status: 0, stderr: "" });
    expect(short.stdout).toBe(cli(...command, "--help").stdout);
  });

  // Linux has a device that is always full.
  it.runIf(existsSync("/dev/full"))("says in one line that the output is full, and exits 1", () => {
    const full = openSync("/dev/full", "w");
    const { status, stderr } = spawnSync(process.execPath, [cliPath, "cues", "--json"], {
      encoding: "utf8",
      stdio: ["ignore", full, "pipe"],
    });
    closeSync(full);
    expect(status).toBe(1);
    expect(stderr).toMatch(/^The output could not be written: .*no space left.*\n$/);
  });

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
  it("names the options that would correct it", () => {
    const settings = { ...firstPlan, lengthSeconds: 30, volume: 0, longestGapSeconds: 50 };
    const [problem] = checkPlan(settings);
    if (problem === undefined) throw new Error("The plan should have been refused.");
    expect(planProblemLine(problem, settings)).toBe(
      "--length 30s: a session lasts at least 1m. Nearest possible: --length 1m --mean 1m --longest 1m40s a volume above 0.",
    );
  });
});
