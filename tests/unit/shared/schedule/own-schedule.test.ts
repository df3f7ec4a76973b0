import { expect, it } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { ownSchedule } from "../../../../shared/schedule/own-schedule.ts";
import { sessionSchedule } from "../../../../shared/schedule/session-schedule.ts";

const ids = ["one", "two", "three"];

it("merges what each student's key lists, in the order of time", () => {
  const merged = ownSchedule(firstPlan, "abc", ids);
  for (const studentId of ids) {
    const own = merged.filter((cue) => cue.studentId === studentId);
    expect(own.map(({ seconds }) => seconds)).toEqual(
      sessionSchedule(firstPlan, "abc", { studentId }).cues,
    );
    expect(own.map(({ cue }) => cue)).toEqual(own.map((_, at) => at + 1));
  }
  const times = merged.map(({ seconds }) => seconds);
  expect(times).toEqual(times.toSorted((one, other) => one - other));
});

it("shifts nobody's numbers when a student comes or is erased", () => {
  const all = ownSchedule(firstPlan, "abc", ids);
  const fewer = ownSchedule(firstPlan, "abc", ["one", "three"]);
  expect(fewer).toEqual(all.filter(({ studentId }) => studentId !== "two"));
});
