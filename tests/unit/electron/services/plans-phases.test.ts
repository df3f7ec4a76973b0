import { expect, test } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { checkPlan } from "../../../../shared/schedule/check-plan.ts";
import { caller, makeGroup, openServices, refusalOf } from "./services.ts";

test("1. plans are made, changed and archived; a group is never without one", async () => {
  const services = openServices();
  const { plans } = services;
  const { group } = await makeGroup(services);
  const groupId = group.id;
  const dense = { ...firstPlan, meanSeconds: 60 };
  const made = await plans.create({ groupId, name: "Dense", settings: dense }, caller);
  const changed = await plans.update({ id: made.id, name: "Denser", settings: dense }, caller);
  expect(changed).toEqual({ id: made.id, groupId, name: "Denser", settings: dense });
  expect(await plans.list({ groupId }, caller)).toContainEqual(changed);
  for (const { id } of await plans.list({ groupId }, caller)) await plans.archive({ id }, caller);
  const left = await plans.list({ groupId }, caller);
  expect(left).toMatchObject([{ name: "First plan", settings: firstPlan }]);
  expect(left[0]?.id).not.toBe(made.id);
});

test("2. a plan that cannot be run is neither made nor kept", async () => {
  const services = openServices();
  const { plans } = services;
  const { group } = await makeGroup(services);
  const impossible = { ...firstPlan, meanSeconds: 10, shortestGapSeconds: 20 };
  const [problem] = checkPlan(impossible);
  const facts = { groupId: group.id, name: "B", settings: impossible };
  const [first] = await plans.list({ groupId: group.id }, caller);
  if (first === undefined || problem === undefined) throw new Error("Missing");
  for (const call of [
    () => plans.create(facts, caller),
    () => plans.update({ id: first.id, name: "B", settings: impossible }, caller),
  ]) {
    const refusal = await refusalOf(call);
    expect(refusal).toMatchObject({ code: "plan-impossible", values: { problem: problem.code } });
  }
  expect(await plans.list({ groupId: group.id }, caller)).toEqual([first]);
});

test("3. phases stand by first day, of the group or of one of its students", async () => {
  const services = openServices();
  const { phases } = services;
  const { group, students } = await makeGroup(services, ["Pine"]);
  const { students: strangers } = await makeGroup(services, ["Otter"]);
  const groupId = group.id;
  const facts = { groupId, label: "", startsOn: "2026-03-09", draw: null, probes: null } as const;
  const program = await phases.create({ ...facts, studentId: null, kind: "intervention" }, caller);
  const own = await phases.create(
    { ...facts, studentId: students[0]?.id ?? null, kind: "baseline", startsOn: "2026-03-02" },
    caller,
  );
  expect(await phases.list({ groupId }, caller)).toEqual([own, program]);
  const days = ["2026-02-23", "2026-02-24", "2026-03-02"];
  const draw = { from: "2026-02-23", to: "2026-03-06", seed: "kiwi", days, times: 2 };
  const moved = {
    id: program.id,
    kind: "fading",
    label: "Thin",
    startsOn: "2026-03-01",
    draw,
    probes: null,
  } as const;
  expect(await phases.update(moved, caller)).toEqual({ ...program, ...moved });
  await phases.remove({ id: own.id }, caller);
  expect(await phases.list({ groupId }, caller)).toEqual([{ ...program, ...moved }]);
  const stranger = strangers[0]?.id ?? null;
  const refusal = await refusalOf(() =>
    phases.create({ ...facts, studentId: stranger, kind: "baseline" }, caller),
  );
  expect(refusal).toMatchObject({ code: "student-not-in-group", values: { student: "Otter" } });
});

test("phases of one draw are kept together, or none of them is", async () => {
  const services = openServices();
  const { phases } = services;
  const { group, students } = await makeGroup(services, ["Pine", "Wren"]);
  const { students: strangers } = await makeGroup(services, ["Otter"]);
  const groupId = group.id;
  const facts = { label: "", draw: null, probes: null } as const;
  const pair = (studentId: string | null) => [
    { ...facts, studentId, kind: "baseline" as const, startsOn: "2026-03-02" },
    { ...facts, studentId, kind: "intervention" as const, startsOn: "2026-03-09" },
  ];
  const own = students.flatMap(({ id }) => pair(id));
  const made = await phases.createAll({ groupId, phases: own }, caller);
  expect(made).toHaveLength(4);
  expect(await phases.list({ groupId }, caller)).toHaveLength(4);
  const refused = await refusalOf(() =>
    phases.createAll({ groupId, phases: [...pair(null), ...pair(strangers[0]?.id ?? "")] }, caller),
  );
  expect(refused).not.toBeNull();
  expect(await phases.list({ groupId }, caller)).toHaveLength(4);
});
