import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { cues as cuesCommand } from "../../../../../electron/commands/cues.ts";
import { chimeFolder } from "../../../../../electron/recording/chime-folder.ts";
import { chimeLoader } from "../../../../../electron/recording/load-chime.ts";
import { recordingName, recordings } from "../../../../../electron/services/transfer/recordings.ts";
import { StoreError } from "../../../../../electron/store/file/store-error.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import { decodeWav } from "../../../../../shared/sound/wav.ts";
import { keyCues } from "../../../../../src/print/key-cues.ts";
import { makeGroup, nobody, openServices, refusalOf } from "../services.ts";

async function open(change: Partial<typeof firstPlan> = {}) {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Otter", "Heron"]);
  const settings = {
    ...firstPlan,
    lengthSeconds: 60,
    meanSeconds: 15,
    shortestGapSeconds: 5,
    ...change,
  };
  const plan = services.store.plans.create(
    { groupId: group.id, name: "Short", settings },
    services.clock.wallMs(),
  );
  return { ...services, plan, students, record: recordings(services.store) };
}

test("1. a session becomes one file of its length in the data folder", async () => {
  const { plan, store, record } = await open();
  const made = await record({ planId: plan.id, seed: "paper", form: "wav" });
  expect(dirname(made.path)).toBe(join(store.folder, "recordings"));
  const bytes = readFileSync(made.path);
  expect(made.bytes).toBe(bytes.length);
  const { samples, sampleRate } = decodeWav(bytes);
  expect(made.seconds).toBeCloseTo(samples.length / sampleRate, 9);
  expect(made.seconds).toBeGreaterThan(60);
  expect(samples.some((sample) => sample > 0.05)).toBe(true);
});

test("2. made again it replaces the file; another form or seed is another file; nothing half stays", async () => {
  const { plan, store, record } = await open();
  const folder = join(store.folder, "recordings");
  mkdirSync(folder);
  writeFileSync(join(folder, "Short-old-000000.wav.partial"), "cut off");
  const wanted = { planId: plan.id, seed: "paper", form: "flac" } as const;
  const both = await Promise.all([record(wanted), record(wanted)]);
  expect(both[0]).toEqual(both[1]);
  await record({ ...wanted, form: "wav" });
  await record({ ...wanted, seed: "other" });
  expect(readdirSync(folder)).toHaveLength(3);
});

test("3. a plan that is not there, cannot be run or is silent is refused", async () => {
  const { plan, record } = await open({ volume: 0, cueing: "silent" });
  const wanted = { planId: plan.id, seed: "a", form: "wav" } as const;
  expect(await refusalOf(() => record(wanted))).toMatchObject({ code: "recording-silent" });
  await expect(async () => record({ ...wanted, planId: nobody })).rejects.toThrow("plan");
  const impossible = await open({ meanSeconds: 300 });
  expect(
    await refusalOf(() => impossible.record({ ...wanted, planId: impossible.plan.id })),
  ).toMatchObject({ code: "plan-impossible" });
});

test("4. a folder that cannot be written is told as what it is, and the next one may work", async () => {
  const { plan, store, record } = await open();
  const folder = join(store.folder, "recordings");
  writeFileSync(folder, "a file where the folder should be");
  await expect(record({ planId: plan.id, seed: "a", form: "wav" })).rejects.toThrow(StoreError);
  expect(existsSync(`${folder}.partial`)).toBe(false);
});

test.each([
  ["../../etc/passwd", "..\\..\\x"],
  ["C:\\Windows", "/root"],
  ["Señal número 3", "ünïque"],
  ["∞", "…"],
  ["con", "nul"],
  ["a".repeat(60), "b".repeat(80)],
  ["x\u0000y", "line\nbreak"],
])("5. the name of plan %j and seed %j is a plain name in one folder", (name, seed) => {
  const made = recordingName({ id: nobody, name }, seed, "cues", "wav");
  expect(made).toMatch(/^([A-Za-z0-9]+-)*[0-9a-f]{6}\.wav$/);
  expect(made.length).toBeLessThan(100);
});

test("6. seeds that look alike once cleaned have different names", () => {
  const plan = { id: nobody, name: "A" };
  expect(recordingName(plan, "a b", "cues", "wav")).not.toBe(
    recordingName(plan, "a-b", "cues", "wav"),
  );
});

/** Seconds at which each stretch of sound begins, told by at least half a second of exact zeros. */
function onsets(samples: Float32Array): number[] {
  const found: number[] = [];
  let quiet = 24_000;
  for (const [index, sample] of samples.entries()) {
    if (sample !== 0 && quiet >= 24_000) found.push(index / 48_000);
    quiet = sample === 0 ? quiet + 1 : 0;
  }
  return found;
}

test("7. key, recording and command line have the same cues, the group's and each student's own", async () => {
  const change = {
    lengthSeconds: 240,
    meanSeconds: 30,
    shortestGapSeconds: 10,
    chime: "wood",
  } as const;
  const { plan, students, store, record } = await open(change);
  const load = chimeLoader(chimeFolder());
  const firstSound = (name: "wood" | "begin") =>
    load(name).samples.findIndex((sample) => sample !== 0) / 48_000;
  // The begin chime, a second of quiet, then the session.
  const sessionAt = load("begin").samples.length / 48_000 + 1;

  const seen = new Set<string>();
  for (const studentId of [null, ...students.map(({ id }) => id)]) {
    const key = keyCues(plan.settings, { seed: "paper", studentId, meanSeconds: null }).schedule;
    expect(key?.streamName).toBe(studentId === null ? "cues" : `cues/${studentId}`);

    const own = studentId === null ? {} : { studentId };
    const made = await record({ planId: plan.id, seed: "paper", form: "wav", ...own });
    expect(made.streamName).toBe(key?.streamName);
    const heard = onsets(decodeWav(readFileSync(made.path)).samples).slice(1, -1);
    expect(heard).toHaveLength(key?.cues.length ?? 0);
    for (const [index, cue] of (key?.cues ?? []).entries()) {
      expect(heard[index]).toBeCloseTo(sessionAt + cue + firstSound("wood"), 4);
    }

    let printed = "";
    const options = "--mean 30s --length 4m --shortest 10s --seed paper --json".split(" ");
    await cuesCommand.run([...options, ...(studentId === null ? [] : ["--student", studentId])], {
      write: (text) => {
        printed += text;
      },
    });
    expect(JSON.parse(printed)).toMatchObject({ cues: key?.cues });
    seen.add(String(key?.cues));
  }
  expect(seen.size).toBe(3);
  expect(readdirSync(join(store.folder, "recordings"))).toHaveLength(3);
  // A child's name in a file's name would outlive the child's erasing.
  for (const name of readdirSync(join(store.folder, "recordings"))) {
    expect(name).not.toMatch(/otter|heron/i);
  }
});

test("8. a student of another group has no cues here", async () => {
  const { plan, record } = await open();
  const wanted = { planId: plan.id, seed: "a", form: "wav", studentId: nobody } as const;
  await expect(async () => record(wanted)).rejects.toThrow("student");
});
