import { expect, test } from "vitest";
import { Missing } from "../../../../electron/services/base/refusal.ts";
import { caller, makeGroup, nobody, openServices, refusalOf, topicsOf } from "./services.ts";

const dayMs = 86_400_000;

test("1. days off are kept by first day and can be taken back", async () => {
  const services = openServices();
  const { calendar } = services;
  const summer = { firstDay: "2026-07-20", lastDay: "2026-09-01", label: "Summer" };
  const outing = { firstDay: "2026-03-06", lastDay: "2026-03-06", label: "" };
  await calendar.add(summer, caller);
  const made = await calendar.add(outing, caller);
  expect(await calendar.daysOff(undefined, caller)).toMatchObject([outing, summer]);
  expect(await topicsOf(services, () => calendar.remove({ id: made.id }, caller))).toEqual([
    "program",
  ]);
  expect(await calendar.daysOff(undefined, caller)).toMatchObject([summer]);
  await expect(async () => calendar.remove({ id: made.id }, caller)).rejects.toThrow(Missing);
});

test("2. days off that end before they start are refused", async () => {
  const { calendar } = openServices();
  const reversed = { firstDay: "2026-03-06", lastDay: "2026-03-05", label: "" };
  expect(await refusalOf(() => calendar.add(reversed, caller))).toMatchObject({
    code: "days-off-order",
  });
  expect(await calendar.daysOff(undefined, caller)).toEqual([]);
});

test("3. a group that never saved a program has the usual one, from its first plan and phase", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  const groupId = group.id;
  const usual = await services.program.get({ groupId }, caller);
  expect(usual).toEqual({
    groupId,
    goal: 0.8,
    stepMeansSeconds: [120, 180, 300, 600],
    place: 0,
    pointsPaid: false,
    placeSince: "2026-03-02",
    placeSinceMs: null,
  });
  const phase = { groupId, studentId: null, label: "", draw: null, probes: null } as const;
  await services.phases.create({ ...phase, kind: "intervention", startsOn: "2026-03-09" }, caller);
  await services.phases.create({ ...phase, kind: "baseline", startsOn: "2026-03-16" }, caller);
  expect((await services.program.get({ groupId }, caller)).placeSince).toBe("2026-03-09");
});

test("4. a program counts from the day on which its place or the cues there changed", async () => {
  const services = openServices();
  const { clock, program } = services;
  const { group } = await makeGroup(services);
  const facts = { groupId: group.id, goal: 0.9, place: 0 };
  const save = (change: { place?: number; stepMeansSeconds: number[] }) =>
    program.save({ ...facts, ...change }, caller);
  clock.advance(dayMs);
  expect((await save({ stepMeansSeconds: [120, 240] })).placeSince).toBe("2026-03-02");
  expect((await save({ place: 1, stepMeansSeconds: [120, 240] })).placeSince).toBe("2026-03-03");
  clock.advance(dayMs);
  expect((await save({ place: 1, stepMeansSeconds: [60, 240] })).placeSince).toBe("2026-03-03");
  const saved = await save({ place: 1, stepMeansSeconds: [60, 300] });
  expect(saved.placeSince).toBe("2026-03-04");
  expect(await program.get({ groupId: group.id }, caller)).toEqual(saved);
});

test("5. a ladder that does not thin out, and a place beyond it, are refused", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  const facts = { groupId: group.id, goal: 0.8 };
  const disorder = await refusalOf(() =>
    services.program.save({ ...facts, place: 0, stepMeansSeconds: [120, 240, 240] }, caller),
  );
  expect(disorder).toMatchObject({ code: "program-steps-order", values: { step: 3 } });
  // Two cue steps, then recording without cues, own praise and probes: places 0 to 4.
  const place = (place: number) =>
    services.program.save({ ...facts, place, stepMeansSeconds: [120, 240] }, caller);
  expect(await refusalOf(() => place(5))).toMatchObject({
    code: "program-place-unknown",
    values: { place: 6, last: 5 },
  });
  expect(await place(4)).toMatchObject({ place: 4 });
});

test("6. what was done with advice is kept, newest first, with its day", async () => {
  const services = openServices({ offsetMinutes: -600 });
  const { group, students } = await makeGroup(services, ["Pine"]);
  const about = { groupId: group.id, accepted: true, note: "" };
  await services.advice.decide({ ...about, studentId: null, advice: "keep-going" }, caller);
  services.clock.advance(dayMs);
  const studentId = students[0]?.id ?? null;
  const thin = { ...about, studentId, advice: "thin-cues", accepted: false, note: "Too soon" };
  await services.advice.decide({ ...thin, advice: "thin-cues" }, caller);
  expect(await services.advice.decisions({ groupId: group.id }, caller)).toMatchObject([
    { ...thin, day: "2026-03-03" },
    { advice: "keep-going", studentId: null, day: "2026-03-02" },
  ]);
  const { students: strangers } = await makeGroup(services, ["Otter"]);
  const stranger = strangers[0]?.id ?? null;
  const refused = await refusalOf(() =>
    services.advice.decide({ ...about, studentId: stranger, advice: "keep-going" }, caller),
  );
  expect(refused.code).toBe("student-not-in-group");
});

test("7. examples to practise with are kept in order and replaced as a whole", async () => {
  const { practice, ...services } = openServices();
  const { group } = await makeGroup({ practice, ...services });
  const groupId = group.id;
  expect(await practice.examples({ groupId }, caller)).toEqual({ working: [], notWorking: [] });
  const examples = { working: ["Reading", "Writing"], notWorking: ["Reading"] };
  await practice.saveExamples({ groupId, examples }, caller);
  expect(await practice.examples({ groupId }, caller)).toEqual(examples);
  const fewer = { working: ["Asking for help"], notWorking: [] };
  await practice.saveExamples({ groupId, examples: fewer }, caller);
  expect(await practice.examples({ groupId }, caller)).toEqual(fewer);
  await expect(async () => practice.examples({ groupId: nobody }, caller)).rejects.toThrow(Missing);
});

test("8. the timetable says on which weekdays each group sits, Monday to Friday at first", async () => {
  const services = openServices();
  const { calendar } = services;
  const { group } = await makeGroup(services);
  const groupId = group.id;
  expect(await calendar.timetable(undefined, caller)).toEqual({
    today: "2026-03-02",
    groups: [{ groupId, weekdays: [1, 2, 3, 4, 5] }],
    periods: [],
  });
  const topics = await topicsOf(services, () =>
    calendar.saveWeekdays({ groupId, weekdays: [4, 2, 4] }, caller),
  );
  expect(topics).toEqual(["program"]);
  expect((await calendar.timetable(undefined, caller)).groups).toEqual([
    { groupId, weekdays: [2, 4] },
  ]);
  const strangers = { groupId: nobody, weekdays: [1] };
  await expect(async () => calendar.saveWeekdays(strangers, caller)).rejects.toThrow(Missing);
});

test("9. probe days belong to a maintenance phase, from its first day on", async () => {
  const services = openServices();
  const { phases } = services;
  const { group } = await makeGroup(services);
  const probes = { until: "2026-06-30", seed: "plum", days: ["2026-06-03", "2026-06-19"] };
  const facts = { groupId: group.id, studentId: null, label: "", draw: null, probes };
  const maintenance = { ...facts, kind: "maintenance", startsOn: "2026-06-01" } as const;
  const made = await phases.create(maintenance, caller);
  expect(await phases.list({ groupId: group.id }, caller)).toEqual([made]);
  for (const wrong of [
    { ...maintenance, kind: "fading" } as const,
    { ...maintenance, startsOn: "2026-06-04" },
  ]) {
    expect((await refusalOf(() => phases.create(wrong, caller))).code).toBe("probes-misplaced");
    const { groupId: _g, studentId: _s, ...change } = wrong;
    const refused = await refusalOf(() => phases.update({ id: made.id, ...change }, caller));
    expect(refused.code).toBe("probes-misplaced");
  }
});
