import { describe, expect, it } from "vitest";
import { checkSteps } from "../../../../shared/agreement/check-fading.ts";
import {
  type SpotCheckSettings,
  spotCheckDraw,
} from "../../../../shared/agreement/spot-check-draw.ts";
import { randomStream } from "../../../../shared/schedule/stream.ts";

const group = Array.from({ length: 24 }, (_, index) => `student-${index + 1}`);

const monday: SpotCheckSettings = {
  seed: "monday",
  cueCount: 10,
  every: 1,
  present: always(group),
  studentsPerCheck: 2,
  earlierChecks: {},
  closely: new Set(),
};

/** The same students at each of so many cues. */
function always(students: readonly string[], cues = 20) {
  return Array.from({ length: cues }, () => students);
}

/** Checks of each student over sessions, each knowing the earlier counts. */
function weekOf(sessions: number, change: Partial<SpotCheckSettings>, seed: string) {
  const counts: Record<string, number> = Object.fromEntries(group.map((id) => [id, 0]));
  for (let session = 0; session < sessions; session++) {
    const settings = { ...monday, ...change, earlierChecks: counts, seed: `${seed}/${session}` };
    for (const { studentIds } of spotCheckDraw(settings)) {
      for (const id of studentIds) counts[id] = (counts[id] ?? 0) + 1;
    }
  }
  return Object.values(counts);
}

describe("spot checks", () => {
  it("at every cue look at the asked number of different students", () => {
    const moments = spotCheckDraw(monday);
    expect(moments.map(({ cueIndex }) => cueIndex)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
    for (const { studentIds } of moments) expect(new Set(studentIds).size).toBe(2);
  });

  it("are the same for the same seed, and leave the cues' own stream alone", () => {
    const before = randomStream("monday", "cues")();
    expect(spotCheckDraw(monday)).toEqual(spotCheckDraw(monday));
    expect(randomStream("monday", "cues")()).toBe(before);
  });

  it.each(checkSteps)("at one in %i cues keep that share in the long run", (every) => {
    let checks = 0;
    const perCue = new Array<number>(12).fill(0);
    const sessions = 2000;
    for (let session = 0; session < sessions; session++) {
      const moments = spotCheckDraw({ ...monday, every, cueCount: 12, seed: `share-${session}` });
      checks += moments.length;
      for (const { cueIndex } of moments) perCue[cueIndex] = (perCue[cueIndex] ?? 0) + 1;
    }
    expect(Math.abs(checks / sessions / (12 / every) - 1)).toBeLessThan(0.03);
    // No place in the session is safer than another: chi-square with 11 degrees of freedom stays below
    // 31.264 in 999 of 1000 samples (computed with scipy); drawing without repeats only lowers it.
    const expected = checks / 12;
    const chiSquare = perCue.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    expect(chiSquare).toBeLessThan(31.264);
  });

  it("come at least once in a session with cues, never in one without", () => {
    for (let session = 0; session < 200; session++) {
      const few = spotCheckDraw({ ...monday, cueCount: 2, every: 10, seed: `few-${session}` });
      expect(few.length).toBe(1);
    }
    expect(spotCheckDraw({ ...monday, cueCount: 0 })).toEqual([]);
    expect(spotCheckDraw({ ...monday, present: always([]) })).toEqual([]);
  });

  it("spread about equally over a week", () => {
    for (const studentsPerCheck of [1, 2, 4]) {
      for (let week = 0; week < 20; week++) {
        const counts = weekOf(10, { studentsPerCheck }, `week-${week}`);
        expect(Math.max(...counts) - Math.min(...counts)).toBeLessThanOrEqual(4);
      }
    }
  });

  it("catch up on students who were away", () => {
    const earlierChecks = Object.fromEntries(group.map((id) => [id, id === "student-7" ? 0 : 4]));
    const looked = spotCheckDraw({ ...monday, earlierChecks, studentsPerCheck: 1 });
    expect(
      looked.filter(({ studentIds }) => studentIds.includes("student-7")).length,
    ).toBeGreaterThan(1);
  });

  it("leave nobody safe, however often checked before", () => {
    const earlierChecks = { "student-1": 2 };
    let sessionsWith = 0;
    for (let session = 0; session < 500; session++) {
      const moments = spotCheckDraw({
        ...monday,
        earlierChecks,
        every: 4,
        seed: `safe-${session}`,
      });
      if (moments.some(({ studentIds }) => studentIds.includes("student-1"))) sessionsWith += 1;
    }
    expect(sessionsWith).toBeGreaterThan(0);
  });

  it("look at everyone when there are fewer students than places", () => {
    const [first] = spotCheckDraw({
      ...monday,
      present: always(["one", "two"]),
      studentsPerCheck: 4,
    });
    expect(new Set(first?.studentIds)).toEqual(new Set(["one", "two"]));
  });

  it("look at those present only, and keep what was drawn when somebody leaves or comes", () => {
    const all = spotCheckDraw(monday);
    const afterFive = [...always(group, 5), ...always(group.slice(0, 3), 5)];
    const some = spotCheckDraw({ ...monday, present: afterFive });
    expect(some.slice(0, 5)).toEqual(all.slice(0, 5));
    for (const { studentIds } of some.slice(5)) {
      for (const id of studentIds) expect(group.slice(0, 3)).toContain(id);
    }
    expect(spotCheckDraw({ ...monday, present: always(group, 3) })).toEqual(all.slice(0, 3));
  });

  it("come at every cue for those to be checked closely, with a place left for anybody", () => {
    const closely = new Set(["student-5"]);
    const moments = spotCheckDraw({ ...monday, every: 10, cueCount: 20, closely });
    expect(moments).toHaveLength(20);
    for (const { studentIds } of moments) expect(studentIds[0]).toBe("student-5");
    const shared = moments.filter(({ studentIds }) => studentIds.length === 2);
    expect(shared).toHaveLength(2);
    expect(
      spotCheckDraw({ ...monday, every: 10, closely, studentsPerCheck: 1 }).length,
    ).toBeGreaterThan(8);
  });

  it.each([0, 5, 1.5, Number.NaN])("refuse to look at %f students", (studentsPerCheck) => {
    expect(() => spotCheckDraw({ ...monday, studentsPerCheck })).toThrow(RangeError);
  });
});
