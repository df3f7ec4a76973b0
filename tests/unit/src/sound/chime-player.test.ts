import { describe, expect, test } from "vitest";
import { type CueOutcome, createChimePlayer } from "../../../../src/sound/chime-player.ts";
import { holdMs, type SoundStatus } from "../../../../src/sound/decide-start.ts";
import { createFakeAudio } from "./fake-audio.ts";

async function set(
  options: {
    latencyMs?: number;
    running?: boolean;
    device?: boolean | "refused";
    broken?: "glass" | "bell";
  } = {},
) {
  const audio = createFakeAudio(options);
  if (options.broken !== undefined) audio.broken.add(options.broken);
  const outcomes: CueOutcome[] = [];
  const statuses: SoundStatus[] = [];
  const player = createChimePlayer({
    output: audio.output,
    clock: audio.clock,
    onOutcome: (outcome) => outcomes.push(outcome),
    onStatus: (status) => statuses.push(status),
  });
  await player.load().catch(() => undefined);
  player.beginSession();
  await audio.pass(1000);
  return { audio, player, outcomes, statuses };
}

const bell = (cue: number, volume = 0.5) => ({ cue, chime: "bell" as const, volume });
const sounding = (audio: ReturnType<typeof createFakeAudio>) =>
  audio.starts.filter((start) => !start.stopped);

describe("a cue on time", () => {
  test("starts on the audio clock so that it is heard when due, latency counted", async () => {
    const { audio, player, outcomes } = await set({ latencyMs: 40 });
    const dueAtMs = audio.nowMs() + 10_000;
    player.schedule(bell(1), dueAtMs);
    await audio.pass(7900);
    expect(audio.starts).toEqual([]);
    await audio.pass(200);
    // The page is at 2000 ms when the audio clock is at 1000 ms, whose sound is heard 40 ms later.
    expect(audio.starts).toHaveLength(1);
    expect(audio.starts[0]?.at).toBeCloseTo(dueAtMs - 1000 - 40, 6);
    expect(outcomes).toEqual([]);
    await audio.pass(2500);
    expect(outcomes).toEqual([{ kind: "began", cue: 1, beganAtMs: dueAtMs }]);
  });

  test("needs no timer when it was scheduled long ahead in a throttled page", async () => {
    const { audio, player, outcomes } = await set();
    const dueAtMs = audio.nowMs() + 60_000;
    player.schedule(bell(1), dueAtMs);
    audio.setThrottled(true);
    await audio.pass(61_000);
    expect(outcomes).toEqual([{ kind: "began", cue: 1, beganAtMs: dueAtMs }]);
    expect(sounding(audio)).toHaveLength(1);
  });

  test("many cues are each reported once, in order", async () => {
    const { audio, player, outcomes } = await set();
    const due = [3000, 5000, 7500].map((ms) => audio.nowMs() + ms);
    due.forEach((ms, index) => {
      player.schedule(bell(index + 1), ms);
    });
    await audio.pass(10_000);
    expect(outcomes).toEqual(
      due.map((beganAtMs, index) => ({ kind: "began", cue: index + 1, beganAtMs })),
    );
    expect(sounding(audio)).toHaveLength(3);
  });

  test("is moved when the audio clock falls behind while it waits there", async () => {
    const { audio, player, outcomes } = await set();
    const dueAtMs = audio.nowMs() + 1900;
    player.schedule(bell(1), dueAtMs);
    await audio.pass(300);
    await audio.pass(70, { audioRuns: false });
    await audio.pass(400);
    await audio.pass(35, { audioRuns: false });
    await audio.pass(3000);
    expect(outcomes).toEqual([{ kind: "began", cue: 1, beganAtMs: dueAtMs }]);
    expect(sounding(audio)).toHaveLength(1);
    expect(sounding(audio)[0]?.at).toBeCloseTo(dueAtMs - 1000 - 40 - 105, 6);
  });

  test("scheduled again takes the new time and sounds once", async () => {
    const { audio, player, outcomes } = await set();
    player.schedule(bell(1), audio.nowMs() + 1000);
    await audio.pass(100);
    const dueAtMs = audio.nowMs() + 3000;
    player.schedule(bell(1), dueAtMs);
    await audio.pass(5000);
    expect(outcomes).toEqual([{ kind: "began", cue: 1, beganAtMs: dueAtMs }]);
    expect(sounding(audio)).toHaveLength(1);
  });

  test("taken back does not sound and reports nothing", async () => {
    const { audio, player, outcomes } = await set();
    player.schedule(bell(1), audio.nowMs() + 1000);
    await audio.pass(500);
    player.cancel(1);
    await audio.pass(5000);
    expect(outcomes).toEqual([]);
    expect(sounding(audio)).toEqual([]);
  });
});

describe("a late cue", () => {
  test("handed over half a second late begins at once", async () => {
    const { audio, player, outcomes } = await set();
    player.schedule(bell(1), audio.nowMs() - 500);
    await audio.pass(200);
    const [outcome] = outcomes;
    if (outcome?.kind !== "began") throw new Error("It should have begun.");
    expect(outcome.beganAtMs - audio.nowMs()).toBeLessThan(0);
    expect(sounding(audio)).toHaveLength(1);
  });

  test("handed over more than a second late is refused", async () => {
    const { audio, player, outcomes } = await set();
    player.schedule(bell(1), audio.nowMs() - 1001);
    expect(outcomes).toEqual([{ kind: "failed", cue: 1, reason: "too-late" }]);
    expect(audio.starts).toEqual([]);
  });

  test("is refused too when only the output's latency makes it so", async () => {
    const { audio, player, outcomes } = await set({ latencyMs: 300 });
    player.schedule(bell(1), audio.nowMs() - 800);
    expect(outcomes).toEqual([{ kind: "failed", cue: 1, reason: "too-late" }]);
    expect(audio.starts).toEqual([]);
  });
});

describe("an output that stops", () => {
  test("locked from the start: the cue fails as locked at its moment, so that it can be shown instead", async () => {
    const { audio, player, outcomes, statuses } = await set({ running: false });
    expect(statuses).toEqual(["locked"]);
    player.schedule(bell(1), audio.nowMs() + 500);
    await audio.pass(500 + holdMs);
    expect(outcomes).toEqual([]);
    await audio.pass(2);
    expect(outcomes).toEqual([{ kind: "failed", cue: 1, reason: "locked" }]);
    // Unlocked afterwards, the old cue stays silent.
    audio.setRunning(true);
    await audio.pass(5000);
    expect(audio.starts).toEqual([]);
    expect(outcomes).toHaveLength(1);
  });

  test("suspended with a cue handed over: it is taken back, and fails as suspended", async () => {
    const { audio, player, outcomes } = await set();
    player.schedule(bell(1), audio.nowMs() + 1500);
    await audio.pass(100);
    expect(sounding(audio)).toHaveLength(1);
    audio.setRunning(false);
    expect(sounding(audio)).toEqual([]);
    await audio.pass(3000);
    expect(outcomes).toEqual([{ kind: "failed", cue: 1, reason: "suspended" }]);
    audio.setRunning(true);
    await audio.pass(5000);
    expect(sounding(audio)).toEqual([]);
  });

  test("suspended and back in time: mapped afresh, heard when due", async () => {
    const { audio, player, outcomes } = await set();
    const dueAtMs = audio.nowMs() + 1900;
    player.schedule(bell(1), dueAtMs);
    await audio.pass(100);
    audio.setRunning(false);
    await audio.pass(700);
    audio.setRunning(true);
    await audio.pass(3000);
    expect(outcomes).toEqual([{ kind: "began", cue: 1, beganAtMs: dueAtMs }]);
    expect(sounding(audio)).toHaveLength(1);
  });

  test("asleep over the due moment without a word: not rung on waking", async () => {
    const { audio, player, outcomes } = await set();
    player.schedule(bell(1), audio.nowMs() + 1500);
    await audio.pass(100);
    audio.sleep(60_000);
    await audio.pass(5000);
    expect(outcomes).toEqual([{ kind: "failed", cue: 1, reason: "too-late" }]);
    expect(sounding(audio)).toEqual([]);
  });

  test("asleep until before the due moment: mapped afresh", async () => {
    const { audio, player, outcomes } = await set();
    const dueAtMs = audio.nowMs() + 1900;
    player.schedule(bell(1), dueAtMs);
    await audio.pass(100);
    audio.sleep(1200);
    await audio.pass(3000);
    expect(outcomes).toEqual([{ kind: "began", cue: 1, beganAtMs: dueAtMs }]);
    expect(sounding(audio)).toHaveLength(1);
  });

  test("running, but with a clock that stands still: the device is lost", async () => {
    const { audio, player, outcomes, statuses } = await set();
    player.schedule(bell(1), audio.nowMs() + 1900);
    await audio.pass(100);
    await audio.pass(3500, { audioRuns: false });
    expect(outcomes).toEqual([{ kind: "failed", cue: 1, reason: "device-lost" }]);
    expect(statuses.at(-1)).toBe("device-lost");
    expect(sounding(audio)).toEqual([]);
  });

  test("the last device unplugged, and another plugged in", async () => {
    const { audio, player, outcomes, statuses } = await set();
    audio.setDevice(false);
    await audio.pass(10);
    expect(statuses.at(-1)).toBe("device-lost");
    player.schedule(bell(1), audio.nowMs() + 500);
    await audio.pass(2000);
    expect(outcomes).toEqual([{ kind: "failed", cue: 1, reason: "device-lost" }]);
    audio.setDevice(true);
    await audio.pass(10);
    expect(statuses.at(-1)).toBe("ready");
    player.schedule(bell(2), audio.nowMs() + 500);
    await audio.pass(2000);
    expect(outcomes[1]?.kind).toBe("began");
  });

  test("no device listed from the start says nothing: the browser may list none before it is allowed to", async () => {
    const { audio, player, outcomes, statuses } = await set({ device: false });
    audio.setDevice(false);
    await audio.pass(10);
    expect(statuses.at(-1)).toBe("ready");
    player.schedule(bell(1), audio.nowMs() + 500);
    await audio.pass(2000);
    expect(outcomes[0]?.kind).toBe("began");
    // Once it lists one, the next empty list counts.
    audio.setDevice(true);
    await audio.pass(10);
    audio.setDevice(false);
    await audio.pass(10);
    expect(statuses.at(-1)).toBe("device-lost");
  });

  test("a list of devices that is refused counts as one with a device", async () => {
    const { audio, player, outcomes, statuses } = await set();
    audio.setDevice("refused");
    await audio.pass(10);
    expect(statuses.at(-1)).toBe("ready");
    audio.setDevice(false);
    await audio.pass(10);
    expect(statuses.at(-1)).toBe("device-lost");
    audio.setDevice("refused");
    await audio.pass(10);
    expect(statuses.at(-1)).toBe("ready");
    player.schedule(bell(1), audio.nowMs() + 500);
    await audio.pass(2000);
    expect(outcomes[0]?.kind).toBe("began");
  });

  test("a failing output reports itself lost", async () => {
    const { audio, statuses } = await set();
    audio.failOutput();
    await audio.pass(10);
    expect(statuses.at(-1)).toBe("device-lost");
  });
});

describe("loading, unlocking, volume", () => {
  test("a chime that cannot be loaded is named, and its cue fails with that reason", async () => {
    const audio = createFakeAudio();
    audio.broken.add("glass");
    const outcomes: CueOutcome[] = [];
    const player = createChimePlayer({
      output: audio.output,
      clock: audio.clock,
      onOutcome: (outcome) => outcomes.push(outcome),
    });
    await expect(player.load()).rejects.toThrow("glass");
    player.schedule({ cue: 1, chime: "glass", volume: 0.5 }, audio.nowMs() + 100);
    await audio.pass(99);
    expect(outcomes).toEqual([]);
    await audio.pass(2);
    expect(outcomes).toEqual([{ kind: "failed", cue: 1, reason: "load-failed" }]);
    expect(await player.preview("glass", 0.4)).toBe("load-failed");
    // Loading is tried again by the next preview.
    audio.broken.clear();
    expect(await player.preview("glass", 0.4)).toBeNull();
    expect(audio.plays).toEqual([["glass", 0.4]]);
  });

  test("a chime that could not be loaded is tried again for the next cue", async () => {
    const { audio, player, outcomes } = await set({ broken: "glass" });
    player.schedule({ cue: 1, chime: "glass", volume: 0.5 }, audio.nowMs() + 100);
    await audio.pass(200);
    audio.broken.clear();
    player.schedule({ cue: 2, chime: "glass", volume: 0.5 }, audio.nowMs() + 100);
    await audio.pass(200);
    expect(outcomes.map(({ kind }) => kind)).toEqual(["failed", "began"]);
  });

  test("a chime not asked for before is loaded when its cue comes", async () => {
    const audio = createFakeAudio();
    const outcomes: CueOutcome[] = [];
    const player = createChimePlayer({
      output: audio.output,
      clock: audio.clock,
      onOutcome: (outcome) => outcomes.push(outcome),
    });
    player.schedule(bell(1), audio.nowMs() + 500);
    await audio.pass(1000);
    expect(outcomes[0]?.kind).toBe("began");
  });

  test("unlock resumes, and says so when it is refused", async () => {
    const { audio, player } = await set({ running: false });
    const refused = player.unlock();
    await audio.pass(700);
    expect(await refused).toBe("locked");
    audio.allowResume();
    const allowed = player.unlock();
    await audio.pass(700);
    expect(await allowed).toBe("ready");
  });

  test("a preview while locked sounds nothing, then or later", async () => {
    const { audio, player } = await set({ running: false });
    const preview = player.preview("bell", 0.4);
    await audio.pass(700);
    expect(await preview).toBe("locked");
    audio.setRunning(true);
    await audio.pass(1000);
    expect(audio.plays).toEqual([]);
  });

  test("a chime asked for twice at once is loaded once, and a failed one is told to both", async () => {
    const audio = createFakeAudio();
    audio.broken.add("glass");
    const { output, clock } = audio;
    const player = createChimePlayer({ output, clock, onOutcome: () => undefined });
    const results = await Promise.allSettled([
      player.load(["bell", "glass"]),
      player.load(["glass", "bell"]),
    ]);
    expect(results.map(({ status }) => status)).toEqual(["rejected", "rejected"]);
    expect(audio.loads).toEqual(["bell", "glass"]);
    await player.load(["bell"]);
    expect(audio.loads).toEqual(["bell", "glass"]);
    audio.broken.clear();
    await player.load(["glass"]);
    expect(audio.loads).toEqual(["bell", "glass", "glass"]);
  });

  test("each cue keeps the volume it was called with, whatever is tried meanwhile", async () => {
    const { audio, player, outcomes } = await set();
    player.schedule(bell(1, 0.3), audio.nowMs() + 1900);
    await audio.pass(100);
    expect(await player.preview("wood", 0.9)).toBeNull();
    player.schedule(bell(2, 0.6), audio.nowMs() + 3000);
    await audio.pass(5000);
    expect(outcomes.map(({ kind }) => kind)).toEqual(["began", "began"]);
    expect(sounding(audio).map(({ volume }) => volume)).toEqual([0.3, 0.6]);
    expect(audio.plays).toEqual([["wood", 0.9]]);
  });

  test("volume is bounded", async () => {
    const { audio, player } = await set();
    expect(() => player.schedule(bell(1, 1.2), audio.nowMs())).toThrow(
      "volume must be from 0 to 1; got 1.2.",
    );
    await expect(player.preview("bell", Number.NaN)).rejects.toThrow("volume must be from 0 to 1");
    expect(audio.plays).toEqual([]);
  });

  test("the end of the session takes back what is left and lets the output sleep", async () => {
    const { audio, player, outcomes } = await set();
    expect(audio.isAwake()).toBe(true);
    player.schedule(bell(1), audio.nowMs() + 1000);
    await audio.pass(10);
    player.endSession();
    await audio.pass(5000);
    expect(audio.isAwake()).toBe(false);
    expect(outcomes).toEqual([]);
    expect(sounding(audio)).toEqual([]);
  });
});
