import { describe, expect, it } from "vitest";
import { recentSessions } from "../../../../shared/analysis/recent.ts";
import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { readGroup } from "../../../../shared/reading/group-reading.ts";
import { spanTrend } from "../../../../shared/reading/span-trend.ts";
import { readStudent } from "../../../../shared/reading/student-reading.ts";
import type { CheckPair } from "../../../../shared/record/group-counts.ts";
import { groupCounts, type Marks, session } from "./builders.ts";

// The rules themselves are common practice and have no source; the statistics under them are held by
// published values in tests/reference. Marks here are invented: of twenty cues, so many on task.

const cues = 20;
const marksOf = (on: readonly number[]): Marks => on.map((each) => [each, cues - each, 0]);

/** One session on each weekday from a Monday on. */
function schoolDays(count: number, monday = "2022-09-05"): string[] {
  return Array.from({ length: count }, (_, at) =>
    dayText(dayNumber(monday) + 7 * Math.floor(at / 5) + (at % 5)),
  );
}

function phase(kind: Phase["kind"], startsOn: string): Phase {
  return {
    id: kind,
    groupId: "g",
    studentId: null,
    kind,
    label: "",
    startsOn,
    draw: null,
    probes: null,
  };
}

function counted(on: readonly number[], phases: readonly Phase[] = [], checks: CheckPair[] = []) {
  const days = schoolDays(on.length);
  const sessions = days.map((day, at) => session(`x${at}`, day));
  return groupCounts(sessions, [{ self: marksOf(on) }], { phases: [...phases], checks });
}

const flagsIn = (counts: ReturnType<typeof counted>) =>
  readGroup(counts, ["s1"]).students[0]?.flags ?? [];

/** From one count to another in equal steps, with a wobble of one mark. */
const between = (from: number, to: number, sessions: number): number[] =>
  Array.from({ length: sessions }, (_, at) =>
    Math.round(from + ((to - from) * at) / (sessions - 1) + (at % 2 === 0 ? 0.4 : -0.4)),
  );

describe("the trend that is said first", () => {
  it("is the observer's where a student's own sessions are too few, and fewer", () => {
    const days = schoolDays(10);
    const sessions = days.map((day, at) => session(`x${at}`, day));
    const readWith = (ownSessions: number, observed: number) => {
      const firsts = (count: number): Marks =>
        days.map((_, at) => (at < count ? [10 + at, 10 - at, 0] : null));
      const student = { self: firsts(ownSessions), observer: firsts(observed) };
      return readStudent(groupCounts(sessions, [student]), "s1").present;
    };
    expect(readWith(1, 10)).toMatchObject({ source: "observer", trend: { kind: "enough" } });
    expect(readWith(4, 4).source).toBe("self");
    expect(readWith(5, 10)).toMatchObject({ source: "self", trend: { sessions: 5 } });
    expect(readWith(0, 0).source).toBe("self");
  });

  it("does not call the jump from baseline to program a rise", () => {
    const days = schoolDays(24);
    const level = (on: number) =>
      Array.from({ length: 12 }, (_, at) => on + ([0, 1, -1, 0][at % 4] ?? 0));
    const counts = counted(
      [...level(6), ...level(16)],
      [phase("baseline", days[0] ?? ""), phase("intervention", days[12] ?? "")],
    );
    const { self, present } = readStudent(counts, "s1");
    // One line over both phases does: that is what must not be said.
    expect(self.trend).toMatchObject({ direction: "up", evidence: "clear" });
    expect(present.phase?.kind).toBe("intervention");
    expect(present.trend).toMatchObject({ kind: "enough", sessions: 12, evidence: "cannot-tell" });
    expect(readGroup(counts, ["s1"]).said.trend).toMatchObject({
      sessions: 12,
      evidence: "cannot-tell",
    });
  });

  it("waits for five sessions of a new phase, however long the record", () => {
    const days = schoolDays(40);
    const counts = counted(between(4, 16, 40), [
      phase("baseline", days[0] ?? ""),
      phase("intervention", days[37] ?? ""),
    ]);
    expect(readStudent(counts, "s1").present.trend).toMatchObject({
      kind: "not-enough",
      reason: "few-sessions",
      have: 3,
      need: 5,
    });
  });

  it("takes an observer's sessions where the phase holds nothing else", () => {
    const sessions = schoolDays(6).map((day, at) => session(`x${at}`, day));
    const counts = groupCounts(
      sessions,
      [{ self: sessions.map(() => null), observer: marksOf([12, 11, 10, 8, 7, 5]) }],
      { phases: [phase("baseline", "2022-09-05")] },
    );
    const { present } = readStudent(counts, "s1");
    expect(present).toMatchObject({ source: "observer", trend: { direction: "down" } });
  });

  it("does not begin a phase that lies ahead", () => {
    const counts = counted(between(6, 12, 12), [phase("intervention", "2030-01-07")]);
    const { present, self } = readStudent(counts, "s1");
    expect(present.phase).toBeNull();
    expect(present.trend).toEqual(self.trend);
  });
});

describe("a falling rate in the class view", () => {
  it("is flagged after years of rise", () => {
    const counts = counted([...between(6, 19, 500), ...between(18, 9, 30)]);
    expect(readStudent(counts, "s1").self.trend).toMatchObject({ direction: "up" });
    expect(flagsIn(counts)).toMatchObject([
      { kind: "rate-falling", over: "recent", sessions: recentSessions },
    ]);
  });

  it("is flagged when the phase falls slowly, and no more once the newest sessions rise", () => {
    const falling = between(18, 8, 60);
    expect(flagsIn(counted(falling)).map(({ kind }) => kind)).toEqual(["rate-falling"]);
    const turned = [...falling.slice(0, 45), ...between(10, 17, 20)];
    expect(flagsIn(counted(turned))).toEqual([]);
  });

  it("says over what it fell: the phase, or all sessions where none has begun", () => {
    const falling = between(18, 8, 12);
    const over = (phases: readonly Phase[]) => flagsIn(counted(falling, phases));
    expect(over([])).toMatchObject([{ over: "all", sessions: 12 }]);
    const begun = phase("intervention", schoolDays(1)[0] ?? "");
    expect(over([begun])).toMatchObject([{ over: "phase", sessions: 12 }]);
  });

  it("is not the fall from an earlier phase to this one", () => {
    const days = schoolDays(24);
    const counts = counted(
      [...between(17, 17, 12), ...between(12, 12, 12)],
      [phase("intervention", days[0] ?? ""), phase("fading", days[12] ?? "")],
    );
    expect(readStudent(counts, "s1").self.trend).toMatchObject({ direction: "down" });
    expect(flagsIn(counts)).toEqual([]);
  });
});

describe("agreement in flags", () => {
  const days = schoolDays(30);
  const check = (at: number, seen: "on" | "off"): CheckPair => ({
    studentId: "s1",
    sessionId: `x${at}`,
    day: days[at] ?? "",
    cue: 1,
    student: "on",
    seen,
  });

  it("is that of the recent sessions, as in the advice", () => {
    const old = Array.from({ length: 10 }, (_, at) => check(at, "off"));
    const newer = Array.from({ length: 20 }, (_, at) => check(10 + at, "on"));
    const counts = counted(between(14, 14, 30), [], [...old, ...newer]);
    const { agreement, recentAgreement, advice } = readStudent(counts, "s1");
    expect(agreement).toMatchObject({ level: "below-80" });
    expect(recentAgreement).toMatchObject({ level: "strong", percent: { compared: 20 } });
    expect(advice.recentAgreement).toMatchObject({ level: "strong" });
    expect(flagsIn(counts)).toEqual([]);

    const spoilt = counted(
      between(14, 14, 30),
      [],
      [...newer.slice(0, 10), ...Array.from({ length: 10 }, (_, at) => check(20 + at, "off"))],
    );
    expect(flagsIn(spoilt)).toMatchObject([{ kind: "low-agreement", share: 0.5, compared: 20 }]);
  });
});

describe("the days that are shown", () => {
  it("are read by themselves, and within their newest phase", () => {
    const days = schoolDays(24);
    const phases = [phase("baseline", days[0] ?? ""), phase("intervention", days[12] ?? "")];
    const counts = counted([...between(6, 6, 12), ...between(10, 18, 12)], phases);
    const { points } = readStudent(counts, "s1");
    const whole = spanTrend(points, phases, { first: days[0] ?? "", last: days[23] ?? "" });
    expect(whole).toMatchObject({
      sessions: 24,
      phase: { kind: "intervention" },
      within: { first: days[12], last: days[23] },
      trend: { sessions: 12, direction: "up", evidence: "clear" },
    });
    const early = spanTrend(points, phases, { first: days[0] ?? "", last: days[9] ?? "" });
    expect(early).toMatchObject({
      sessions: 10,
      phase: { kind: "baseline" },
      trend: { evidence: "cannot-tell" },
    });
    // Six of twenty cues, give or take a rounded wobble that cancels out.
    expect(early?.rate).toBeCloseTo(0.3, 12);
    expect(spanTrend(points, phases, { first: "2030-01-01", last: "2030-02-01" })).toBeNull();
  });
});

describe("the logistic trend of the present phase", () => {
  it("is the penalised fit where a day parts yes from no, and withheld with the trend", () => {
    const parted = readStudent(counted([0, 0, 0, 20, 20, 20]), "s1");
    expect(parted.presentLogistic).toMatchObject({ kind: "enough", method: "firth" });
    const plain = readStudent(counted(between(6, 16, 12)), "s1");
    expect(plain.presentLogistic).toMatchObject({ kind: "enough", method: "quasi-binomial" });
    const few = readStudent(counted([4, 5, 6]), "s1");
    expect(few.presentLogistic).toMatchObject({ kind: "not-enough", reason: "few-sessions" });
  });
});
