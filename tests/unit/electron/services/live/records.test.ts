import { describe, expect, it } from "vitest";
import { noRules } from "../../../../../shared/plan/earning.ts";
import { addStudents } from "../../../../setup/add-students.ts";
import { desktopClass, refused } from "../home/rig.ts";
import { caller, nextChange } from "../services.ts";

/** A class in which Pine sat in a session with a card, and then went to another room. */
async function moved() {
  const here = await desktopClass();
  const { id: sessionId } = await here.start();
  here.clock.advance(900_000);
  await here.sessions.end({ sessionId }, caller);
  const save = (on: number, off: number) =>
    here.records.saveCards(
      { sessionId, cards: [{ studentId: here.pine, card: { kind: "totals", on, off } }] },
      caller,
    );
  await save(4, 1);
  const { id: groupId } = await here.groups.create({ name: "Room 5", target: "" }, caller);
  await here.students.move({ id: here.pine, groupId }, caller);
  const balance = () => {
    const purses = here.points.state({ groupId }, caller);
    return Promise.resolve(purses).then(({ purses: all }) => all[0]?.balance);
  };
  return { ...here, sessionId, save, balance, next: groupId };
}

describe("a session of a group that a student has left since", () => {
  it("shows the student's card, and it can be corrected, and pays what it is worth then", async () => {
    const here = await moved();
    const { rows } = await here.records.cards({ sessionId: here.sessionId }, caller);
    expect(rows.map(({ student }) => student.name)).toContain("Pine");
    expect(await here.balance()).toBe(9);
    expect(await here.save(5, 1)).toEqual({ written: 1, refused: [] });
    expect(await here.balance()).toBe(11);
    const { pine: studentId, sessionId } = here;
    expect(await here.records.corrections({ sessionId, studentId }, caller)).toHaveLength(1);
    const work = [{ studentId, assigned: 4, completed: 4, correct: null }];
    expect(await here.records.saveWork({ sessionId, work }, caller)).toEqual({ written: 1 });
    await here.sessions.setAside({ sessionId, studentId, aside: true }, caller);
    const after = await here.records.cards({ sessionId }, caller);
    expect(after.rows.find(({ student }) => student.id === studentId)?.setAside).toBe(true);
  });

  it("pays nothing to one who had said no to points, however often it is looked at", async () => {
    const here = await desktopClass();
    await here.say(here.pine, "points", "no");
    const { id: sessionId } = await here.start();
    here.clock.advance(900_000);
    await here.sessions.end({ sessionId }, caller);
    const card = { kind: "totals", on: 4, off: 1 } as const;
    await here.records.saveCards({ sessionId, cards: [{ studentId: here.pine, card }] }, caller);
    const { id: groupId } = await here.groups.create({ name: "Room 5", target: "" }, caller);
    await here.students.move({ id: here.pine, groupId }, caller);
    const { handlers } = await here.again();
    // Some seconds after the start each session's points are held to its log.
    here.clock.advance(60_000);
    const { purses } = await handlers.points.state({ groupId }, caller);
    expect(purses).toMatchObject([{ studentId: here.pine, balance: 0 }]);
  });

  it("takes nothing of one who was never in that group", async () => {
    const here = await moved();
    const [stranger] = await addStudents(here, here.next, ["Lark"], caller);
    const cards = [
      { studentId: stranger?.id ?? "", card: { kind: "totals", on: 1, off: 0 } as const },
    ];
    expect(
      await refused(() => here.records.saveCards({ sessionId: here.sessionId, cards }, caller)),
    ).toBe("student-not-in-group");
  });

  it("is the last of theirs: a later one knows them no more", async () => {
    const here = await moved();
    here.clock.advance(900_000);
    const { id: sessionId } = await here.start();
    const { pine: studentId } = here;
    expect(
      await refused(() => here.sessions.setAside({ sessionId, studentId, aside: true }, caller)),
    ).toBe("student-not-in-group");
  });
});

describe("a session that is open", () => {
  it("keeps its students: nobody is archived out of it", async () => {
    const here = await desktopClass();
    const { id: sessionId } = await here.start();
    expect(await refused(() => here.students.archive({ id: here.pine }, caller))).toBe(
      "session-running",
    );
    await here.sessions.end({ sessionId }, caller);
    await here.students.archive({ id: here.pine }, caller);
  });
});

describe("a session that was held without the app", () => {
  it("has the points looked at again: its minutes are paid at once", async () => {
    const rules = { ...noRules, minute: 1 };
    const here = await desktopClass({ earning: { kind: "own", rules } });
    const [plan] = await here.plans.list({ groupId: here.groupId }, caller);
    const told = here.app.changes({ after: null }, caller);
    const first = await nextChange(await told);
    await here.records.enterHeld(
      {
        groupId: here.groupId,
        planId: plan?.id ?? "",
        startedAt: "2026-03-02T08:00:00Z",
        cues: { kind: "counted", count: 3 },
        absentIds: [],
        note: "",
      },
      caller,
    );
    const { topics } = await nextChange(await here.app.changes({ after: first }, caller));
    const { purses } = await here.points.state({ groupId: here.groupId }, caller);
    expect(purses[0]?.balance).toBeGreaterThan(0);
    expect(topics).toContain("points");
  });
});
