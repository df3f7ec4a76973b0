import { describe, expect, test } from "vitest";
import { adviceHandlers } from "../../../../electron/services/advice.ts";
import { withEarning } from "../../../../electron/services/points/earning-at-start.ts";
import type { Store } from "../../../../electron/store/store.ts";
import { dayText } from "../../../../shared/calendar/calendar.ts";
import { noRules } from "../../../../shared/plan/earning.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import type { SessionKind } from "../../../../shared/session/event.ts";
import { caller, makeGroup, openServices, refusalOf, type Services, topicsOf } from "./services.ts";

const dayMs = 86_400_000;
const today = "2026-03-02";
const tomorrow = "2026-03-03";

/** A group on the usual ladder, 120, 180, 300, 600 s and then three steps without cues, at a place. */
async function classAt(place: number) {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine", "Otter"]);
  const groupId = group.id;
  const stepMeansSeconds = [120, 180, 300, 600];
  const program = { groupId, goal: 0.8, stepMeansSeconds, place };
  await services.program.save(program, caller);
  const step = (toPlace: number, more: { fromPlace?: number; phaseLabel?: string } = {}) => ({
    groupId,
    studentId: null,
    advice: toPlace < place ? ("step-back" as const) : ("thin-cues" as const),
    note: "",
    fromPlace: place,
    toPlace,
    phaseLabel: "",
    ...more,
  });
  return { services, groupId, students, step };
}

function sat(store: Store, groupId: string, day: string, planName: string, kind: SessionKind) {
  return store.sessions.create({
    groupId,
    kind,
    planName,
    plan: firstPlan,
    seed: "kiwi",
    startedMs: Date.parse(`${day}T07:00:00Z`),
    offsetMinutes: 0,
    day,
  });
}

/** Everything that accepting can change. */
async function kept({ advice, plans, program, phases }: Services, groupId: string) {
  return {
    decisions: await advice.decisions({ groupId }, caller),
    plans: await plans.list({ groupId }, caller),
    program: await program.get({ groupId }, caller),
    phases: await phases.list({ groupId }, caller),
  };
}

describe("accepting a step", () => {
  test("raises what a mark is worth with fewer cues, or leaves it where that is chosen", async () => {
    const rules = { ...noRules, mark: 1, on: 1, match: 4 };
    for (const worth of ["raised", "kept"] as const) {
      const { services, groupId, step } = await classAt(0);
      const [plan] = await services.plans.list({ groupId }, caller);
      if (plan === undefined) throw new Error("no plan");
      const settings = { ...plan.settings, earning: { kind: "own", rules } } as const;
      await services.plans.update({ id: plan.id, name: plan.name, settings }, caller);
      const move = await services.advice.accept({ ...step(1), worth }, caller);
      const raised = { ...rules, mark: 2, on: 2, match: 8 };
      expect(move.plan?.settings.earning).toEqual({
        kind: "own",
        rules: worth === "raised" ? raised : rules,
      });
    }
  });

  test("leaves the usual rule in place, whose match follows the checks at the next start", async () => {
    const { services, groupId, step } = await classAt(0);
    const [plan] = await services.plans.list({ groupId }, caller);
    if (plan === undefined) throw new Error("no plan");
    const rules = { ...noRules, mark: 1, on: 1, match: 2 };
    const settings = { ...plan.settings, earning: { kind: "usual", rules } } as const;
    await services.plans.update({ id: plan.id, name: plan.name, settings }, caller);
    const { plan: after } = await services.advice.accept(step(1), caller);
    expect(after?.settings.earning).toMatchObject({ kind: "usual", rules: { mark: 2 } });
    const start = (checkPace: "every" | "fourth") => {
      const now = { ...(after?.settings ?? settings), checkPace };
      return withEarning(services.store, groupId, "seatwork", now).earning;
    };
    // Two of two at every cue, and at one in four.
    expect(start("every")).toMatchObject({ kind: "usual", rules: { mark: 2, on: 2, match: 4 } });
    expect(start("fourth")).toMatchObject({ kind: "usual", rules: { mark: 2, on: 2, match: 8 } });
  });

  test("keeps the decision, changes the plan, moves the program and begins a fading phase", async () => {
    const { services, groupId, step } = await classAt(0);
    const topics = await topicsOf(services, async () => {
      const move = await services.advice.accept(
        step(1, { phaseLabel: "Cues every 3 minutes" }),
        caller,
      );
      expect(move).toMatchObject({
        decision: { advice: "thin-cues", accepted: true, day: today },
        program: { place: 1, placeSince: today, placeSinceMs: services.clock.wallMs() },
        plan: { settings: { meanSeconds: 180 } },
        phases: [
          { kind: "fading", label: "Cues every 3 minutes", startsOn: today, studentId: null },
        ],
      });
      const { decision, program, plan, phases } = move;
      expect(await kept(services, groupId)).toEqual({
        decisions: [decision],
        plans: [plan],
        program,
        phases,
      });
    });
    expect(topics.toSorted()).toEqual(["phases", "plans", "points", "program"]);
  });

  test("changes the plan of the latest seatwork, and the first where it sat under none of them", async () => {
    const { services, groupId, step } = await classAt(0);
    const { store, advice, plans } = services;
    const second = await plans.create({ groupId, name: "Reading", settings: firstPlan }, caller);
    sat(store, groupId, "2026-02-26", "Reading", "seatwork");
    sat(store, groupId, "2026-02-27", "First plan", "probe");
    expect((await advice.accept(step(1), caller)).plan?.id).toBe(second.id);
    await plans.archive({ id: second.id }, caller);
    const back = { ...step(0), advice: "step-back" as const, fromPlace: 1 };
    expect((await advice.accept(back, caller)).plan?.id).not.toBe(second.id);
  });

  test.each([
    { from: 3, to: 4, kind: "fading" },
    { from: 4, to: 5, kind: "fading" },
    { from: 5, to: 6, kind: "maintenance" },
    { from: 6, to: 5, kind: "intervention" },
  ])(
    "past the last cue, from place $from to $to, changes no plan and begins $kind",
    async ({ from, to, kind }) => {
      const { services, groupId, step } = await classAt(from);
      const before = await kept(services, groupId);
      const move = await services.advice.accept(step(to), caller);
      expect(move).toMatchObject({ plan: null, program: { place: to }, phases: [{ kind }] });
      expect((await kept(services, groupId)).plans).toEqual(before.plans);
    },
  );

  test("steps back from the last cue's end to the cues there, as the program again", async () => {
    const { services, step } = await classAt(4);
    const move = await services.advice.accept(step(3), caller);
    expect(move).toMatchObject({
      plan: { settings: { meanSeconds: 600 } },
      phases: [{ kind: "intervention", startsOn: today }],
    });
  });

  test("begins the phase tomorrow when the group has sat today; practice is no sitting", async () => {
    const practised = await classAt(0);
    sat(practised.services.store, practised.groupId, today, "First plan", "practice");
    expect(await practised.services.advice.accept(practised.step(1), caller)).toMatchObject({
      phases: [{ startsOn: today }],
    });
    const worked = await classAt(0);
    sat(worked.services.store, worked.groupId, today, "First plan", "seatwork");
    expect(await worked.services.advice.accept(worked.step(1), caller)).toMatchObject({
      phases: [{ startsOn: tomorrow }],
    });
  });

  test("doubles no phase that starts on the same day", async () => {
    const { services, groupId, step } = await classAt(0);
    const own = { kind: "fading", label: "My words", startsOn: today, draw: null } as const;
    const phase = await services.phases.create(
      { groupId, studentId: null, ...own, probes: null },
      caller,
    );
    expect((await services.advice.accept(step(1), caller)).phases).toEqual([phase]);
    expect(await services.phases.list({ groupId }, caller)).toEqual([phase]);
    services.clock.advance(dayMs);
    await services.advice.accept({ ...step(2), fromPlace: 1 }, caller);
    expect(await services.phases.list({ groupId }, caller)).toMatchObject([
      phase,
      { kind: "fading", startsOn: tomorrow },
    ]);
  });

  test("gives the line also to students with phases of their own, once past their baseline", async () => {
    const { services, groupId, students, step } = await classAt(0);
    const [pine, otter] = students.map(({ id }) => id);
    const facts = { groupId, label: "", draw: null, probes: null };
    const add = (studentId = "", kind: "baseline" | "intervention", number: number) =>
      services.phases.create({ ...facts, studentId, kind, startsOn: dayText(number) }, caller);
    await add(pine, "baseline", 20_480);
    await add(pine, "intervention", 20_490);
    await add(otter, "baseline", 20_480);
    const { phases } = await services.advice.accept(step(1), caller);
    expect(phases.map(({ studentId }) => studentId)).toEqual([null, pine]);
  });
});

describe("nothing is half done", () => {
  test("when the plan cannot be kept, the phase cannot be written or the place is not known", async () => {
    const { services, groupId, step } = await classAt(0);
    const { store, changes, clock } = services;
    const before = await kept(services, groupId);
    const fails = () => {
      throw new Error("disk full");
    };
    const broken: Store[] = [
      { ...store, plans: { ...store.plans, update: fails } },
      { ...store, programs: { ...store.programs, save: fails } },
      { ...store, phases: { ...store.phases, create: fails } },
    ];
    for (const half of broken) {
      const advice = adviceHandlers(half, changes, clock);
      await expect(async () => advice.accept(step(1), caller)).rejects.toThrow("disk full");
      expect(await kept(services, groupId)).toEqual(before);
    }
    for (const [fromPlace, toPlace, code] of [
      [1, 2, "program-moved"],
      [0, 0, "program-moved"],
      [0, 7, "program-place-unknown"],
    ] as const) {
      const refused = await refusalOf(() =>
        services.advice.accept(step(toPlace, { fromPlace }), caller),
      );
      expect(refused.code).toBe(code);
      expect(await kept(services, groupId)).toEqual(before);
    }
  });

  test("when the plan in use cannot have the step's cues", async () => {
    const { services, groupId, step } = await classAt(0);
    const [plan] = await services.plans.list({ groupId }, caller);
    if (plan === undefined) throw new Error("No plan");
    // A session of a minute has no room for a cue every ten minutes.
    const short = { ...plan.settings, lengthSeconds: 60, meanSeconds: 20, shortestGapSeconds: 5 };
    await services.plans.update({ id: plan.id, name: plan.name, settings: short }, caller);
    const before = await kept(services, groupId);
    const refused = await refusalOf(() => services.advice.accept(step(3), caller));
    expect(refused.code).toBe("plan-impossible");
    expect(await kept(services, groupId)).toEqual(before);
  });
});
