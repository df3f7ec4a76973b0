import { expect, test } from "vitest";
import { Missing } from "../../../../../electron/services/base/refusal.ts";
import { addSample } from "../../../../../electron/services/sample-class.ts";
import type { ImportRow } from "../../../../../shared/api/transfer.ts";
import { dayNumber, dayText } from "../../../../../shared/calendar/calendar.ts";
import { groupCsv } from "../../../../../src/transfer/group-csv.ts";
import { guessMapping } from "../../../../../src/transfer/mapping.ts";
import { readRows } from "../../../../../src/transfer/read-rows.ts";
import { readTable } from "../../../../../src/transfer/read-table.ts";
import {
  caller,
  makeGroup,
  nobody,
  openServices,
  refusalOf,
  type Services,
  topicsOf,
  wholeCounts,
} from "../services.ts";

const at = "2026-02-16T09:15:00+01:00";
const row = (change: Partial<ImportRow> = {}): ImportRow => ({
  student: "Pine",
  startedAt: at,
  source: "self",
  on: 6,
  off: 2,
  missing: 1,
  phase: "",
  subject: "",
  work: null,
  ...change,
});

async function bringIn(services: Services, groupId: string, ...rows: ImportRow[]) {
  return services.transfer.importSessions({ groupId, rows }, caller);
}

/** Each student's counts by name, session after session. */
async function countsOf(services: Services, groupId: string) {
  const { counts, students, sessions } = await wholeCounts(services, groupId);
  const named = counts.map(({ studentId, self, observer }) => {
    const student = students.find(({ id }) => id === studentId);
    return [student?.name, { self, observer }] as const;
  });
  return { sessions, of: Object.fromEntries(named) };
}
const one = (on: number | null, off = on, missing = on) => ({
  on: [on],
  off: [off],
  missing: [missing],
});

test("1. rows of one moment are one session, and counting it gives the rows back", async () => {
  const services = openServices();
  const { group } = await makeGroup(services, ["Pine", "Wren"]);
  const done = await bringIn(
    services,
    group.id,
    row({ student: " pine ", on: 6, off: 2, missing: 2 }),
    row({ student: "Otter", on: 3, off: 4, missing: 0 }),
    row({ student: "Otter", source: "observer", on: 2, off: 5, missing: 1 }),
  );
  expect(done).toMatchObject({ sessions: 1, studentsAdded: 1 });
  const { sessions, of } = await countsOf(services, group.id);
  expect(sessions).toMatchObject([
    { kind: "seatwork", day: "2026-02-16", startedMs: Date.parse(at), cuesDelivered: 10 },
  ]);
  expect(sessions[0]?.offsetMinutes).toBe(60);
  expect(of).toEqual({
    Pine: { self: one(6, 2, 2), observer: one(null) },
    // Seven cues of the ten were this student's.
    Otter: { self: one(3, 4, 0), observer: one(2, 5, 1) },
    // Who is not in the file took no part.
    Wren: { self: one(null), observer: one(null) },
  });
});

test("2. a moment at which students were only observed is a baseline session", async () => {
  const services = openServices();
  const { group } = await makeGroup(services, ["Pine"]);
  await bringIn(services, group.id, row({ source: "observer", on: 0, off: 0, missing: 3 }));
  const { sessions, of } = await countsOf(services, group.id);
  expect(sessions).toMatchObject([{ kind: "baseline", cuesDelivered: 3 }]);
  expect(of.Pine).toEqual({ self: one(null), observer: one(0, 0, 3) });
});

test("3. a student who was added before the imported day is not missing there", async () => {
  const services = openServices({ wallMs: Date.UTC(2026, 0, 5) });
  const { group } = await makeGroup(services, ["Pine", "Wren"]);
  services.clock.advance(60 * 86_400_000);
  await bringIn(services, group.id, row());
  const { of } = await countsOf(services, group.id);
  expect(of.Wren?.self).toEqual(one(null));
});

test("4. nothing is kept of an import with a row that cannot be", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  const refusal = await refusalOf(() =>
    bringIn(
      services,
      group.id,
      row(),
      row({ student: "Future", startedAt: "2026-03-02T10:00:01Z" }),
      row({ student: "Slip", startedAt: "1926-03-02T10:00:00Z" }),
      row({ student: "Empty", on: 0, off: 0, missing: 0 }),
      row({ student: "Otter" }),
      row({ student: "Long", on: 2_000 }),
    ),
  );
  expect(refusal).toMatchObject({ code: "import-bad-rows", values: { count: 4, rows: "2-4, 6" } });
  const { sessions, of } = await countsOf(services, group.id);
  expect([sessions, of]).toEqual([[], {}]);
  expect(await services.transfer.imports({ groupId: group.id }, caller)).toEqual([]);
});

test("5. a row that repeats one of the file or of an earlier import is refused by its place", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  const later = "2026-02-17T09:15:00+01:00";
  await bringIn(services, group.id, row());
  const refusal = await refusalOf(() =>
    bringIn(
      services,
      group.id,
      row({ startedAt: later }),
      // The same moment as the first import's, in another zone.
      row({ student: "PINE", startedAt: "2026-02-16T08:15:00Z", on: 1 }),
      row({ source: "observer" }),
      row({ startedAt: later, on: 9 }),
      row({ student: "Otter" }),
    ),
  );
  expect(refusal).toMatchObject({
    code: "import-repeated-rows",
    values: { count: 2, rows: "2, 4" },
  });
  expect((await countsOf(services, group.id)).sessions).toHaveLength(1);
  expect(await bringIn(services, group.id, row({ source: "observer" }))).toMatchObject({
    sessions: 1,
    studentsAdded: 0,
  });
});

test("6. an undo leaves everything as it was before the import", async () => {
  const services = openServices();
  const { store, transfer } = services;
  const { group } = await makeGroup(services, ["Pine"]);
  const groupId = group.id;
  await bringIn(services, groupId, row({ student: "Early" }));
  services.clock.advance(1);
  const before = await services.analysis.counts({ groupId }, caller);
  const rows = [
    row({ startedAt: "2026-02-17T09:00:00Z" }),
    row({ startedAt: "2026-02-18T09:00:00Z", student: "Otter" }),
  ];
  const { importId } = await bringIn(services, groupId, ...rows);
  expect(await transfer.imports({ groupId }, caller)).toMatchObject([
    { importId, sessions: 2, studentsAdded: 1 },
    { sessions: 1, studentsAdded: 1 },
  ]);
  const topics = await topicsOf(services, async () => {
    expect(await transfer.undoImport({ importId }, caller)).toEqual({
      sessionsRemoved: 2,
      studentsRemoved: 1,
      phasesRemoved: 0,
    });
  });
  expect(topics).toEqual(["groups", "students", "sessions", "records", "phases"]);
  expect(await services.analysis.counts({ groupId }, caller)).toEqual(before);
  expect(store.sessions.list(groupId, 10)).toHaveLength(1);
  await expect(async () => transfer.undoImport({ importId }, caller)).rejects.toThrow(Missing);
  // What was taken back may come again.
  expect(await bringIn(services, groupId, ...rows)).toMatchObject({ sessions: 2 });
});

test("7. an undo keeps a student for whom something else was recorded since", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  const groupId = group.id;
  const first = await bringIn(services, groupId, row(), row({ student: "Otter" }));
  // Otter takes no part in this one, which is no record.
  await bringIn(services, groupId, row({ startedAt: "2026-02-17T09:00:00Z" }));
  expect(await services.transfer.undoImport({ importId: first.importId }, caller)).toEqual({
    sessionsRemoved: 1,
    studentsRemoved: 1,
    phasesRemoved: 0,
  });
  const { sessions, of } = await countsOf(services, groupId);
  expect(Object.keys(of)).toEqual(["Pine"]);
  expect(sessions).toMatchObject([{ day: "2026-02-17" }]);
});

test("8. a file whose names are no names, and too many marks at once, are refused as a whole", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  const crowd = Array.from({ length: 101 }, (_, index) => row({ student: `Name ${index}` }));
  expect(await refusalOf(() => bringIn(services, group.id, ...crowd))).toMatchObject({
    code: "import-too-large",
    values: { what: "students", have: 101, most: 100 },
  });
  const long = Array.from({ length: 250 }, (_, index) =>
    row({ startedAt: new Date(Date.UTC(2025, 0, 1 + index, 9)).toISOString(), on: 1_900 }),
  );
  expect(await refusalOf(() => bringIn(services, group.id, ...long))).toMatchObject({
    code: "import-too-large",
    values: { what: "marks", most: 200_000 },
  });
  expect(services.store.sessions.list(group.id, 10)).toEqual([]);
  expect(services.store.students.listAll(group.id)).toEqual([]);
});

test("9. nothing is brought in or taken back while a session is open", async () => {
  const services = openServices();
  const { store, transfer } = services;
  const { group } = await makeGroup(services, ["Pine"]);
  const { importId } = await bringIn(services, group.id, row());
  const [plan] = store.plans.list(group.id);
  if (plan === undefined) throw new Error("No plan");
  store.sessions.create({
    groupId: group.id,
    kind: "seatwork",
    planName: plan.name,
    plan: plan.settings,
    seed: "open",
    startedMs: services.clock.wallMs(),
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  for (const call of [
    () => bringIn(services, group.id, row({ student: "Otter" })),
    () => transfer.undoImport({ importId }, caller),
    () => transfer.recordCues({ planId: plan.id, seed: "a", form: "wav" }, caller),
  ]) {
    expect(await refusalOf(call)).toMatchObject({ code: "session-running" });
  }
});

test("10. a group that is not there takes nothing", async () => {
  const services = openServices();
  await expect(async () => bringIn(services, nobody, row())).rejects.toThrow(Missing);
});

const phasesOf = async (services: Services, groupId: string) =>
  (await services.phases.list({ groupId }, caller)).map(({ studentId, kind, label, startsOn }) => ({
    studentId,
    kind,
    label,
    startsOn,
  }));
const on = (day: number, phase: string, student = "Pine") =>
  row({ student, phase, startedAt: `2026-02-${String(day).padStart(2, "0")}T09:00:00Z` });

test("11. phases that rows name are the group's, from the first day of each run; an undo takes them back", async () => {
  const services = openServices();
  const { group } = await makeGroup(services, ["Wren"]);
  const groupId = group.id;
  const before = await services.analysis.counts({ groupId }, caller);
  const done = await bringIn(
    services,
    groupId,
    on(2, ""),
    on(9, "Baseline"),
    on(11, "intervention dense"),
    // Absent on the first day of the program, and blank on a day within a phase.
    on(9, "baseline", "Otter"),
    on(12, "intervention dense", "Otter"),
    on(13, "", "Otter"),
    on(16, "baseline"),
  );
  expect(done).toMatchObject({ phasesAdded: 3 });
  expect(await phasesOf(services, groupId)).toEqual([
    { studentId: null, kind: "baseline", label: "", startsOn: "2026-02-09" },
    { studentId: null, kind: "intervention", label: "dense", startsOn: "2026-02-11" },
    { studentId: null, kind: "baseline", label: "", startsOn: "2026-02-16" },
  ]);
  // A phase that is in force already is not added again.
  const again = await bringIn(services, groupId, on(17, "baseline 2"));
  expect(again).toMatchObject({ phasesAdded: 0 });
  expect(await services.transfer.imports({ groupId }, caller)).toContainEqual(
    expect.objectContaining({ importId: done.importId, phasesAdded: 3 }),
  );
  await services.transfer.undoImport({ importId: again.importId }, caller);
  const undone = await services.transfer.undoImport({ importId: done.importId }, caller);
  expect(undone).toMatchObject({ phasesRemoved: 3 });
  expect(await services.analysis.counts({ groupId }, caller)).toEqual(before);
});

test("12. a student whose days do not fit the group's phases has phases of their own", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  const class4 = ["Pine", "Wren"].flatMap((student) => [
    on(9, "baseline", student),
    on(16, "intervention", student),
  ]);
  const later = [on(9, "baseline", "Otter"), on(16, "baseline", "Otter")];
  await bringIn(services, group.id, ...class4, ...later, on(23, "intervention", "Otter"));
  const otter = services.store.students.listAll(group.id).find(({ name }) => name === "Otter");
  const own = (await phasesOf(services, group.id)).filter(({ studentId }) => studentId !== null);
  expect(own).toEqual([
    { studentId: otter?.id, kind: "baseline", label: "", startsOn: "2026-02-09" },
    { studentId: otter?.id, kind: "intervention", label: "", startsOn: "2026-02-23" },
  ]);
});

test("13. a second phase on one day, a second subject in one session, and no phase at all are refused", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  const call = () =>
    bringIn(
      services,
      group.id,
      on(9, "baseline"),
      row({ startedAt: "2026-02-09T11:00:00Z", phase: "intervention" }),
      row({ startedAt: "2026-02-10T11:00:00Z", subject: "Maths" }),
      row({ startedAt: "2026-02-10T11:00:00Z", subject: "Reading", student: "Otter" }),
    );
  expect(await refusalOf(call)).toMatchObject({
    code: "import-bad-rows",
    values: { rows: "2, 4" },
  });
  expect(await refusalOf(() => bringIn(services, group.id, on(9, "before")))).toMatchObject({
    code: "import-bad-rows",
    values: { rows: "1" },
  });
});

test("14. the subject of an imported session is its plan's", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  await bringIn(services, group.id, row({ subject: "Maths" }), row({ student: "Otter" }));
  const { sessions } = await countsOf(services, group.id);
  expect(sessions.map(({ subject }) => subject)).toEqual(["Maths"]);
});

test("15. work is kept once for a student and session, and none that cannot be", async () => {
  const services = openServices();
  const { group } = await makeGroup(services, ["Pine"]);
  const work = { assigned: 20, completed: 15, correct: null };
  await bringIn(
    services,
    group.id,
    row({ work }),
    row({ source: "observer", work: { ...work, completed: 3 } }),
    row({ student: "Otter" }),
  );
  const { work: kept, students } = await wholeCounts(services, group.id);
  const [pine] = students;
  expect(kept).toMatchObject([{ studentId: pine?.id, ...work }]);
  const tooRight = row({ startedAt: "2026-02-17T09:15:00Z", work: { ...work, correct: 16 } });
  expect(await refusalOf(() => bringIn(services, group.id, tooRight))).toMatchObject({
    code: "import-bad-rows",
    values: { rows: "1" },
  });
});

test("16. the sample class comes back from its own CSV file with the same counts, phases, subjects and work", async () => {
  const services = openServices({ wallMs: Date.UTC(2026, 2, 20, 15) });
  const sampleId = addSample(services.store, services.clock);
  const [pine] = services.store.students.listAll(sampleId);
  // One student began a week later than the class.
  const own = { groupId: sampleId, studentId: pine?.id ?? null, label: "", draw: null };
  const [first, second] = services.store.phases.list(sampleId);
  const late = dayText(dayNumber(second?.startsOn ?? "") + 7);
  for (const [kind, startsOn] of [
    ["baseline", first?.startsOn ?? ""],
    ["intervention", late],
  ] as const) {
    services.store.phases.create({ ...own, kind, startsOn, probes: null }, services.clock.wallMs());
  }
  const out = groupCsv(await wholeCounts(services, sampleId));

  const { group } = await makeGroup(services);
  const table = readTable(out);
  if (table === null) throw new Error("No table");
  const nowMs = services.clock.wallMs();
  const mapping = guessMapping(table.header);
  const { rows, problems } = readRows(table, { mapping, source: "self", nowMs });
  expect(problems).toEqual([]);
  await bringIn(services, group.id, ...rows.map(({ row: each }) => each));
  const back = groupCsv(await wholeCounts(services, group.id));
  const lines = (csv: string) => csv.split("\r\n").sort();
  expect(lines(back)).toEqual(lines(out));
});
