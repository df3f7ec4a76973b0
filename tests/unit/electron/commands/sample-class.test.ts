import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { analyse } from "../../../../electron/commands/analyse.ts";
import { addSample } from "../../../../electron/services/sample-class.ts";
import type { PhaseSummary } from "../../../../shared/analysis/phases/phase-summary.ts";
import { readGroup } from "../../../../shared/reading/group-reading.ts";
import { readStudent } from "../../../../shared/reading/student-reading.ts";
import { groupCsv } from "../../../../src/transfer/group-csv.ts";
import { caller, openServices, wholeCounts } from "../services/services.ts";

// The invented class: what leaves the app as CSV says the same to the command line as to the app.

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "sample-out-"));
});
afterAll(() => rm(folder, { recursive: true }));

async function analysed(csv: string) {
  const path = join(folder, "sessions.csv");
  await writeFile(path, csv);
  let written = "";
  await analyse.run([path, "--json"], {
    write(part) {
      written += part;
    },
  });
  return JSON.parse(written);
}

/** Labels differ: the file repeats the kind in them. */
const unnamed = ({ phases, ...rest }: PhaseSummary) => ({
  ...rest,
  phases: phases.map(({ label: _label, ...phase }) => phase),
});
const plain = (value: unknown) => JSON.parse(JSON.stringify(value));

const bothWays = [
  ["as it is", (_: string) => undefined],
  ["with a first phase that begins after the first sessions", (day: string) => day],
] as const;

test.each(bothWays)("the sample class %s", async (_name, laterStart) => {
  const services = openServices({ wallMs: Date.UTC(2026, 2, 20, 15) });
  const groupId = addSample(services.store, services.clock);
  const before = await wholeCounts(services, groupId);
  const third = laterStart(before.sessions[2]?.day ?? "");
  const [baseline] = before.phases;
  if (baseline === undefined) throw new Error("No phase");
  if (third !== undefined) {
    const { groupId: _group, studentId: _student, ...change } = baseline;
    await services.phases.update({ ...change, startsOn: third }, caller);
  }
  const counts = await wholeCounts(services, groupId);
  const csv = groupCsv(counts);
  if (third !== undefined) expect(csv).toContain(",,observer,");
  const { students, group } = await analysed(csv);
  expect(students).toHaveLength(counts.students.length);

  for (const { id, name } of counts.students) {
    const ours = readStudent(counts, id);
    const theirs = students.find(({ student }: { student: string }) => student === name);
    const { overall, counts: marks, weeks, trend, weekChange, logistic, patterns } = ours.self;
    for (const [key, value] of Object.entries({
      overall,
      counts: marks,
      trend,
      weekChange,
      logistic,
      patterns,
      sensitivity: ours.self.sensitivity,
    })) {
      expect([name, key, theirs.self[key]]).toEqual([name, key, plain(value)]);
    }
    expect(theirs.self.weeks).toHaveLength(weeks.length);
    const { phase: inPane, ...present } = plain(ours.present);
    expect(theirs.present).toMatchObject(present);
    expect(theirs.present.phase.startsOn).toBe(inPane.startsOn);
    // The baseline was observed only, so every comparison of the sample class goes across sources.
    expect(unnamed(theirs.acrossSources.phases)).toEqual(plain(unnamed(ours.phases)));
    const work = counts.work.filter(({ studentId }) => studentId === id);
    expect(theirs.work.sessions).toHaveLength(work.length);
    expect(theirs.work.completed).toBe(work.reduce((sum, each) => sum + each.completed, 0));
  }

  const whole = readGroup(
    counts,
    counts.students.map(({ id }) => id),
  );
  expect(group.self.overall).toEqual(plain(whole.pooled.overall));
  expect(group.self.trend).toEqual(plain(whole.pooled.trend));
  expect(group.self.weekChange).toEqual(plain(whole.pooled.weekChange));
  expect(unnamed(group.acrossSources.phases)).toEqual(plain(unnamed(whole.phases)));
});
