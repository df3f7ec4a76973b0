import { describe, expect, it } from "vitest";
import { settling } from "../../../../../electron/services/points/settling.ts";
import { takeInputs } from "../../../../../electron/services/points/take-inputs.ts";
import { noRules } from "../../../../../shared/plan/earning.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../../../../shared/session/event.ts";
import { emptySession } from "../../../../../shared/session/state.ts";
import { temporaryStore } from "../../store/temporary-folder.ts";

const dayMs = 86_400_000;
const firstMs = Date.UTC(2026, 2, 2, 10);

/** A student with eleven sessions, one a day, each with two recorded marks worth a point each. */
function elevenSessions() {
  const store = temporaryStore();
  const group = store.groups.create({ name: "Room 4", target: "", isSample: false }, 1);
  const [student] = store.students.add(group.id, ["Pine"], 1);
  const studentId = student?.id ?? "";
  const settled = settling(store);
  const sessions = Array.from({ length: 11 }, (_, at) => {
    const startedMs = firstMs + at * dayMs;
    const session = store.sessions.create({
      groupId: group.id,
      kind: "seatwork",
      planName: "Plan",
      plan: { ...firstPlan, earning: { kind: "own", rules: { ...noRules, mark: 1 } } },
      seed: `seed ${at}`,
      startedMs,
      offsetMinutes: 0,
      day: new Date(startedMs).toISOString().slice(0, 10),
    });
    say(session.id, startedMs, { kind: "begun" });
    say(session.id, startedMs + 1_200_000, { kind: "ended", reason: "finished" });
    total(session.id, startedMs + 1_300_000, 2);
    return session;
  });

  function say(sessionId: string, wallMs: number, body: SessionEventBody) {
    settled.appendAll(sessionId, [body], { atMs: 0, wallMs, offsetMinutes: 0 });
  }
  function total(sessionId: string, wallMs: number, on: number) {
    say(sessionId, wallMs, { kind: "total", studentId, on, off: 0, way: "paper" });
  }
  const [first, newest] = [sessions[0], sessions[10]];
  if (first === undefined || newest === undefined) throw new Error("no sessions");
  const lately = (wallMs: number) =>
    takeInputs(store.ledger, newest, emptySession, studentId, { wallMs, offsetMinutes: 0 }).lately;
  return { store, studentId, first, newest, say, total, lately };
}

describe("given and taken over ten sessions", () => {
  it("go by when a session was held, not by when its cards were typed in", () => {
    const { first, newest, total, lately } = elevenSessions();
    const now = newest.startedMs + 2_000_000;
    expect(lately(now)).toEqual({ given: 20, taken: 0 });
    // The eleventh newest session gets its other cards today: that is no license to take today.
    total(first.id, now, 9);
    expect(lately(now)).toEqual({ given: 20, taken: 0 });
    total(newest.id, now, 5);
    expect(lately(now)).toEqual({ given: 23, taken: 0 });
  });
});

describe("a press taken back after midnight", () => {
  it("belongs to the day of the press: a new day begins with nothing given and nothing taken", () => {
    const { store, studentId, newest, say } = elevenSessions();
    const night = Date.UTC(2026, 2, 12, 23, 58);
    const press = (kind: "given" | "taken", id: string) =>
      ({ kind, studentId, amount: 1, why: "other", press: id }) as const;
    say(newest.id, night, press("given", "00000000-0000-4000-8000-000000000001"));
    say(newest.id, night, press("taken", "00000000-0000-4000-8000-000000000002"));
    const taken = store.log.read(newest.id, 0).at(-1)?.stamp.seq ?? 0;
    say(newest.id, night + 300_000, { kind: "untaken", studentId, takenSeq: taken });
    expect(store.ledger.givenTakenOn(studentId, "2026-03-13")).toEqual({ given: 0, taken: 0 });
    // Two marks and a press of this day; what was taken was given back.
    expect(store.ledger.givenTakenOn(studentId, "2026-03-12")).toEqual({ given: 3, taken: 0 });
  });
});
