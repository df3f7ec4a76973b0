import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { decodeWav } from "../../../electron/recording/wav.ts";
import { recordingName, recordings } from "../../../electron/services/recordings.ts";
import { StoreError } from "../../../electron/store/store-error.ts";
import { firstPlan } from "../../../shared/plan/plan.ts";
import { makeGroup, nobody, openServices, refusalOf } from "../services-roster/services.ts";

async function open(change: Partial<typeof firstPlan> = {}) {
  const services = openServices();
  const { group } = await makeGroup(services);
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
  return { ...services, plan, record: recordings(services.store) };
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
  const made = recordingName({ id: nobody, name }, seed, "wav");
  expect(made).toMatch(/^([A-Za-z0-9]+-)*[0-9a-f]{6}\.wav$/);
  expect(made.length).toBeLessThan(100);
});

test("6. seeds that look alike once cleaned have different names", () => {
  const plan = { id: nobody, name: "A" };
  expect(recordingName(plan, "a b", "wav")).not.toBe(recordingName(plan, "a-b", "wav"));
});
