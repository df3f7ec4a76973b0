import { expect, test } from "vitest";
import { firstPlan, keptPlanSchema, planSettingsSchema } from "../../../../../shared/plan/plan.ts";
import { sessionsOf } from "../../../../../shared/reading/session-counts.ts";
import { readStudent } from "../../../../../shared/reading/student-reading.ts";
import { sessionSchedule } from "../../../../../shared/schedule/session-schedule.ts";
import { monday } from "../../store/temporary-folder.ts";
import { caller, makeGroup, openServices } from "../services.ts";

const dayMs = 86_400_000;
const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };

test("1. a subject is kept with the plan, without spaces around it, and changes no schedule", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  const settings = planSettingsSchema.parse({ ...firstPlan, subject: "  Maths " });
  const plan = await services.plans.create({ groupId: group.id, name: "A", settings }, caller);
  expect(plan.settings.subject).toBe("Maths");
  expect(await services.plans.list({ groupId: group.id }, caller)).toContainEqual(plan);
  expect(sessionSchedule(settings, "abc")).toEqual(sessionSchedule(firstPlan, "abc"));
});

test("2. a plan kept before there were subjects has none, and is otherwise the same", () => {
  const { subject: _none, ...earlier } = firstPlan;
  expect(keptPlanSchema.parse(earlier)).toEqual(firstPlan);
  expect(() => planSettingsSchema.parse(earlier)).toThrow();
  const { studentsPerCheck: _two, checkPace: _automatic, ...beforeChecks } = earlier;
  expect(keptPlanSchema.parse(beforeChecks)).toEqual(firstPlan);
});

test("3. sessions carry their plan's subject to the student's patterns; those of earlier versions none", async () => {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine"]);
  const [pine] = students;
  if (pine === undefined) throw new Error("No student");
  const { store } = services;
  // Ten marks a session, alike within a subject: on task in all of Maths, in none of Reading.
  const subjects = ["Maths", "Reading", "", "Maths", "Reading", "Maths", "Reading"];
  subjects.forEach((subject, at) => {
    const startedMs = monday + (at + 1) * dayMs;
    const { id } = store.sessions.create({
      groupId: group.id,
      kind: "seatwork",
      planName: "A",
      plan: { ...firstPlan, subject },
      seed: "subject",
      startedMs,
      offsetMinutes: 0,
      day: new Date(startedMs).toISOString().slice(0, 10),
    });
    const [on, off] = subject === "Maths" ? [10, 0] : [0, 10];
    store.log.appendAll(
      id,
      [
        { kind: "begun" },
        { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null },
        { kind: "total", studentId: pine.id, on, off, way: "paper" },
        { kind: "ended", reason: "finished" },
      ],
      stamp,
    );
  });
  const logged = store.counts.ofGroup(group.id);
  expect(logged.sessions.map(({ subject }) => subject)).toEqual(subjects);
  const counts = {
    ...logged,
    group,
    students,
    phases: [],
    daysOff: [],
    today: "2026-03-20",
  };
  expect(sessionsOf(counts, pine.id).map(({ subject }) => subject ?? "none")).toEqual(
    subjects.map((each) => (each === "" ? "none" : each)),
  );
  const pattern = readStudent(counts, pine.id).self.patterns.subject;
  if (pattern.kind !== "enough") throw new Error("No pattern");
  expect(pattern.kinds.map(({ key, sessions, rate }) => ({ key, sessions, rate }))).toEqual([
    { key: "Maths", sessions: 3, rate: 1 },
    { key: "Reading", sessions: 3, rate: 0 },
  ]);
});
