import { describe, expect, it } from "vitest";
import { noRules } from "../../../../shared/plan/earning.ts";
import { matchedMarks } from "../../../../shared/points/matched-mark.ts";
import { type Payer, worthOf } from "../../../../shared/points/worth.ts";
import { ada, begun, ben, check, delivered, ended, mark, stateOf } from "./log.ts";

const rules = {
  ...noRules,
  mark: 1,
  on: 2,
  match: 7,
  goal: 5,
  item: 1,
  workGoal: 3,
  workItems: 4,
  minute: 1,
};
const payer: Payer = { earning: { kind: "own", rules }, kind: "seatwork", imported: false };
const cues = [1, 2, 3, 4, 5].map(delivered);

describe("what a session is worth", () => {
  it("is added up of marks, on-task marks, work and time", () => {
    const state = stateOf(
      begun,
      ...cues,
      mark(ada, 1, "on"),
      mark(ada, 2, "off"),
      [90_000, ended],
      { kind: "work", studentId: ada, assigned: 9, completed: 4, correct: null },
    );
    expect(worthOf(payer, state, ada)).toEqual({
      mark: 2,
      on: 2,
      match: 0,
      goal: 0,
      work: 7,
      timed: 1,
    });
  });

  it("an off-task mark never costs: it is worth as much as it is worth to record", () => {
    const yes = stateOf(begun, delivered(1), mark(ada, 1, "off"));
    expect(worthOf(payer, yes, ada)).toMatchObject({ mark: 1, on: 0 });
  });

  it("reaches its goal from five marks on", () => {
    const four = [1, 2, 3, 4].map((cue) => mark(ada, cue, "on"));
    expect(worthOf(payer, stateOf(begun, ...cues, ...four), ada).goal).toBe(0);
    const fifth = stateOf(begun, ...cues, ...four, mark(ada, 5, "off"));
    expect(worthOf(payer, fifth, ada).goal).toBe(5);
  });

  it("goes by the student's own goal where there is one", () => {
    const marks = [ada, ben].flatMap((who) => [
      ...[1, 2, 3].map((cue) => mark(who, cue, "on")),
      ...[4, 5].map((cue) => mark(who, cue, "off")),
    ]);
    const own = { kind: "own-goal", studentId: ada, share: 0.6 } as const;
    const state = stateOf(begun, own, ...cues, ...marks);
    expect(worthOf(payer, state, ada).goal).toBe(5);
    expect(worthOf(payer, state, ben).goal).toBe(0);
  });

  it("is nothing for a trial, and stays where it is left out for another reason", () => {
    const said = [begun, delivered(1), mark(ada, 1, "on"), ended];
    const trial = { kind: "left-out", reason: "A trial", trial: true } as const;
    const other = { kind: "left-out", reason: "A fire drill" } as const;
    expect(worthOf(payer, stateOf(...said, trial), ada)).toMatchObject({ mark: 0, on: 0 });
    expect(worthOf(payer, stateOf(...said, trial, { kind: "taken-in" }), ada).mark).toBe(1);
    expect(worthOf(payer, stateOf(...said, trial, other), ada)).toMatchObject({ mark: 1, on: 2 });
  });

  it("takes pluses until marks or totals are known", () => {
    const pluses = { kind: "pluses", studentId: ada, on: 4 } as const;
    const total = { kind: "total", studentId: ada, on: 3, off: 2, way: "paper" } as const;
    expect(worthOf(payer, stateOf(begun, ...cues, ended, pluses), ada)).toMatchObject({
      mark: 0,
      on: 8,
      goal: 0,
    });
    expect(worthOf(payer, stateOf(begun, ...cues, ended, pluses, total), ada)).toMatchObject({
      mark: 5,
      on: 6,
    });
  });

  it("counts the minutes in which a student was not set aside, and none when they were away", () => {
    const state = stateOf(
      begun,
      [60_000, { kind: "set-aside", studentId: ada }],
      [150_000, { kind: "back", studentId: ada }],
      [400_000, ended],
      { kind: "set-aside", studentId: ben },
    );
    expect(worthOf(payer, state, ada).timed).toBe(5);
    expect(worthOf(payer, state, ben).timed).toBe(0);
  });

  it("is nothing in practice, probes, baselines, imports, and where the plan earns nothing", () => {
    const state = stateOf(begun, delivered(1), mark(ada, 1, "on"));
    const others: Payer[] = [
      { ...payer, kind: "practice" },
      { ...payer, kind: "probe" },
      { ...payer, kind: "baseline" },
      { ...payer, imported: true },
      { ...payer, earning: { kind: "none" } },
    ];
    for (const other of others) {
      expect(Object.values(worthOf(other, state, ada))).toEqual([0, 0, 0, 0, 0, 0]);
    }
  });
});

describe("the mark that counts for a check", () => {
  it("is the one that stood at the check; later changes count neither way", () => {
    const before = [begun, delivered(1), mark(ada, 1, "off"), check(ada, 1, "off")];
    expect(matchedMarks(stateOf(...before), ada)).toBe(1);
    expect(matchedMarks(stateOf(...before, mark(ada, 1, "on")), ada)).toBe(1);
    const wrong = [begun, delivered(1), mark(ada, 1, "on"), check(ada, 1, "off")];
    expect(matchedMarks(stateOf(...wrong, mark(ada, 1, "off")), ada)).toBe(0);
  });

  it("is the one that stood when the next cue came, for a check answered late", () => {
    const late = stateOf(
      begun,
      delivered(1),
      mark(ada, 1, "on"),
      delivered(2),
      mark(ada, 1, "off", "paper"),
      check(ada, 1, "off"),
    );
    expect(matchedMarks(late, ada)).toBe(0);
  });

  it("is the first entered afterwards where none stood, from a card too", () => {
    const card = [begun, delivered(1), check(ada, 1, "off"), delivered(2), ended];
    expect(matchedMarks(stateOf(...card, mark(ada, 1, "off", "paper")), ada)).toBe(1);
    const changed = [mark(ada, 1, "on", "paper"), mark(ada, 1, "off", "paper")];
    expect(matchedMarks(stateOf(...card, ...changed), ada)).toBe(0);
  });

  it("was taken back before the check: the next one counts", () => {
    const state = stateOf(
      begun,
      delivered(1),
      mark(ada, 1, "on"),
      mark(ada, 1, "none"),
      check(ada, 1, "off"),
      mark(ada, 1, "off"),
    );
    expect(matchedMarks(state, ada)).toBe(1);
  });

  it("nothing seen is no match; a check corrected counts with its newest word", () => {
    const off = [begun, delivered(1), mark(ada, 1, "off")];
    expect(matchedMarks(stateOf(...off, check(ada, 1, "unseen")), ada)).toBe(0);
    expect(matchedMarks(stateOf(...off, check(ada, 1, "on"), check(ada, 1, "off")), ada)).toBe(1);
    expect(matchedMarks(stateOf(...off, check(ben, 1, "off")), ada)).toBe(0);
  });
});
