import { describe, expect, it } from "vitest";
import type { StudentRecord } from "../../../../shared/api/transfer.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { placesIn, placesText } from "../../../../shared/transfer/places.ts";
import { fileName } from "../../../../src/transfer/save-file.ts";
import { wholeRecord } from "../../../../src/transfer/whole-record.ts";

describe("the places that a refusal names", () => {
  it.each([
    ["3", [3]],
    ["2-4, 6", [2, 3, 4, 6]],
    ["1, 5-5, 9…", [1, 5]],
    ["", []],
  ])("%j", (text, places) => {
    expect(placesIn(text)).toEqual(places);
  });

  it("are written in runs, and read back", () => {
    expect(placesText([2, 3, 4, 6])).toBe("2-4, 6");
    const odd = Array.from({ length: 400 }, (_, at) => 2 * at + 1);
    expect(placesText(odd).length).toBeLessThanOrEqual(500);
    expect(placesIn(placesText(odd.slice(0, 50)))).toEqual(odd.slice(0, 50));
  });
});

describe("the name of a file", () => {
  it.each([
    ["Room 4", "Room-4-2026-03-02.csv"],
    ["../../etc", "etc-2026-03-02.csv"],
    ["Señal / 3:b", "Señal-3-b-2026-03-02.csv"],
    ["…", "2026-03-02.csv"],
  ])("for %j", (what, name) => {
    expect(fileName(what, "2026-03-02", "csv")).toBe(name);
  });
});

it("a record in pieces is put together in order", async () => {
  const id = "01900000-0000-7000-8000-000000000001";
  const student = {
    id,
    groupId: id,
    name: "Pine",
    picture: null,
    target: "",
    holdGoal: null,
    hasMoved: false,
    archived: false,
  };
  const group = { id, name: "A", target: "", isSample: false, archived: false, studentCount: 1 };
  const session = (seed: string) => ({
    session: {
      id,
      groupId: id,
      groupName: "A",
      kind: "seatwork" as const,
      planName: "P",
      plan: firstPlan,
      seed,
      startedMs: 0,
      offsetMinutes: 0,
      day: "2026-03-02",
    },
    events: [],
  });
  const line = (number: number) => ({
    studentId: id,
    number,
    at: "2026-03-02T10:00:00+00:00",
    day: "2026-03-02",
    source: "session" as const,
    rule: "mark",
    amount: 1,
    due: 1,
    forgiven: 0,
    privilege: null,
  });
  const pieces = [["a", "b"], ["c"], ["d"]];
  const asked: number[] = [];
  const record = await wholeRecord(async (from) => {
    asked.push(from);
    const at = asked.length - 1;
    const sessions = (pieces[at] ?? []).map(session);
    const whole: StudentRecord = {
      form: "pebblechime-student-record",
      version: 5,
      exportedMs: at,
      student,
      group,
      phases: [],
      groupPhases: [],
      program: {
        groupId: group.id,
        goal: 0.8,
        stepMeansSeconds: [120],
        place: 0,
        placeSince: "2026-03-02",
        placeSinceMs: null,
        pointsPaid: true,
      },
      plans: [],
      decisions: [],
      daysOff: [],
      sessions,
      ownGoal: null,
      savingFor: null,
      together: { teams: [], wishes: [], pairs: [] },
      papers: {
        studentId: student.id,
        agreed: [],
        reviewOn: null,
        language: null,
        homeCards: [],
        homeCardDays: [],
        contracts: [],
      },
      ledger: [line(9 - at)],
    };
    return { record: whole, next: at < 2 ? from + sessions.length : null };
  });
  expect(asked).toEqual([0, 2, 3]);
  expect(record.sessions.map(({ session: { seed } }) => seed)).toEqual(["a", "b", "c", "d"]);
  expect(record.ledger.map(({ number }) => number)).toEqual([7, 8, 9]);
  expect(record.exportedMs).toBe(0);
});
