import fc from "fast-check";
import { Missing, Refusal } from "../../../electron/services/base/refusal.ts";
import { obeyed } from "../../../electron/services/live/log-door.ts";
import { exchanges } from "../../../electron/services/points/exchange.ts";
import { type Settling, settling } from "../../../electron/services/points/settling.ts";
import { takeInputs } from "../../../electron/services/points/take-inputs.ts";
import type { Store } from "../../../electron/store/store.ts";
import { noRules } from "../../../shared/plan/earning.ts";
import { firstPlan } from "../../../shared/plan/plan.ts";
import { takeRefusal } from "../../../shared/points/guard.ts";
import type { SessionCommand } from "../../../shared/session/decide.ts";
import { reduce } from "../../../shared/session/reduce.ts";
import { emptySession } from "../../../shared/session/state.ts";

const who = fc.nat(1);
const cue = fc.integer({ min: 1, max: 4 });
const press = fc.nat(5);
const word = fc.constantFrom("on", "off", "none");

/** Everything that can happen to points, in any order, twice and late. */
export const happening = fc.oneof(
  { arbitrary: fc.record({ kind: fc.constant("cue"), cue }), weight: 3 },
  { arbitrary: fc.record({ kind: fc.constant("mark"), who, cue, value: word }), weight: 4 },
  fc.record({
    kind: fc.constant("check"),
    who,
    cue,
    value: fc.constantFrom("on", "off", "unseen"),
  }),
  fc.record({ kind: fc.constant("end") }),
  { arbitrary: fc.record({ kind: fc.constant("box"), who, cue, value: word }), weight: 3 },
  fc.record({ kind: fc.constant("total"), who, on: fc.nat(6), off: fc.nat(4) }),
  fc.record({ kind: fc.constant("pluses"), who, on: fc.nat(6) }),
  fc.record({ kind: fc.constant("work"), who, completed: fc.nat(8) }),
  fc.record({ kind: fc.constant("aside"), who, aside: fc.boolean() }),
  {
    arbitrary: fc.record({
      kind: fc.constant("give"),
      who,
      amount: fc.integer({ min: 1, max: 5 }),
      press,
    }),
    weight: 3,
  },
  {
    arbitrary: fc.record({
      kind: fc.constant("take"),
      who,
      amount: fc.integer({ min: 1, max: 2 }),
      press,
    }),
    weight: 3,
  },
  // One of the presses made so far, given or taken; now and then one that was undone already.
  { arbitrary: fc.record({ kind: fc.constant("undo"), made: fc.nat(5) }), weight: 3 },
  fc.record({ kind: fc.constant("stop"), who }),
  { arbitrary: fc.record({ kind: fc.constant("buy"), who, press }), weight: 2 },
  fc.record({ kind: fc.constant("unbuy"), made: fc.nat(5) }),
  fc.record({ kind: fc.constant("leave-out"), isTrial: fc.boolean() }),
  fc.record({ kind: fc.constant("take-in") }),
  fc.record({ kind: fc.constant("catch-up") }),
);
export type Happening = typeof happening extends fc.Arbitrary<infer Each> ? Each : never;

const keyOf = (number: number, use: string) => `00000000-0000-4000-8${use}00-00000000000${number}`;

/** A class of two and one session that earns by every rule. */
export function makeHistory(store: Store) {
  const group = store.groups.create({ name: "Room 4", target: "", isSample: false }, 1);
  const students = store.students.add(group.id, ["Pine", "Otter"], 1).map(({ id }) => id);
  const facts = {
    groupId: group.id,
    name: "Read aloud",
    picture: null,
    places: null,
    minutes: null,
  };
  const privilege = store.privileges.create(
    { ...facts, price: 5, band: 1, perDay: null, notFor: [] },
    1,
  );
  const rules = { ...noRules, mark: 1, on: 2, match: 3, goal: 4, item: 1, workGoal: 2, minute: 1 };
  const newSession = (at: number) =>
    store.sessions.create({
      groupId: group.id,
      kind: "seatwork",
      planName: "Plan",
      plan: { ...firstPlan, earning: { kind: "own", rules } },
      seed: `seed ${at}`,
      startedMs: Date.UTC(2026, 2, 2, 10) + at,
      offsetMinutes: 0,
      day: "2026-03-02",
    });
  return { groupId: group.id, students, privilegeId: privilege.id, newSession };
}
export type History = ReturnType<typeof makeHistory>;

/** Lets all of it happen in one session; refusals are part of life. */
export function live(
  store: Store,
  settled: Settling,
  { students, privilegeId, newSession }: History,
  happenings: readonly Happening[],
): string {
  const session = newSession(0);
  let minute = 0;
  const stampOf = () => ({
    atMs: minute * 30_000,
    wallMs: session.startedMs + minute * 30_000,
    offsetMinutes: 0,
  });
  const clock = { wallMs: () => stampOf().wallMs, offsetMinutes: () => 0 };
  const exchange = exchanges(store, clock);
  // As the conductor does: the state follows what was written, and is not read anew for each press.
  let state = emptySession;
  const ask = (command: SessionCommand) => {
    const now = { stamp: stampOf(), sinceEndMs: 0 };
    const events = obeyed({ appendAll: settled.appendAll }, session.id, state, command, now);
    for (const event of events) state = reduce(state, event);
  };
  const ownGoals = students.slice(0, 1).map((studentId) => ({ studentId, share: 0.5 }));
  ask({ kind: "begin", absentIds: [], ownGoals });
  const bought: { readonly studentId: string; readonly press: string }[] = [];
  for (const each of happenings) {
    minute++;
    const studentId = "who" in each ? (students[each.who] ?? "") : "";
    try {
      step(each, studentId);
    } catch (error) {
      if (!(error instanceof Refusal) && !(error instanceof Missing)) throw error;
    }
  }
  // While a session is open its newest marks wait for the next cue.
  ask({ kind: "end", reason: "teacher" });
  return session.id;

  function step(each: Happening, studentId: string): void {
    switch (each.kind) {
      case "cue":
        ask({ kind: "announce", cue: each.cue });
        ask({ kind: "deliver", cue: each.cue, by: "sound", latenessMs: 0, problem: null });
        return;
      case "mark":
        ask({ kind: "mark", studentId, cue: each.cue, value: each.value, way: "screen" });
        return;
      case "check":
        ask({ kind: "spot-check", studentId, cue: each.cue, value: each.value });
        return;
      case "end":
        ask({ kind: "end", reason: "teacher" });
        return;
      case "box":
        ask({
          kind: "enter-cards",
          changes: [
            { kind: "mark", studentId, cue: each.cue, value: each.value, way: "paper", late: true },
          ],
        });
        return;
      case "total":
        ask({
          kind: "enter-cards",
          changes: [{ kind: "total", studentId, on: each.on, off: each.off, way: "paper" }],
        });
        return;
      case "pluses":
        ask({ kind: "enter-pluses", pluses: [{ studentId, on: each.on }] });
        return;
      case "work":
        ask({
          kind: "enter-work",
          work: [{ studentId, assigned: 8, completed: each.completed, correct: null }],
        });
        return;
      case "aside":
        ask({ kind: "set-aside", studentId, aside: each.aside });
        return;
      case "give":
        ask({
          kind: "give",
          studentId,
          amount: each.amount,
          why: "other",
          press: keyOf(each.press, "1"),
        });
        return;
      case "take": {
        const inputs = takeInputs(store.ledger, session, state, studentId, stampOf());
        const verdict = takeRefusal(inputs, each.amount);
        const press = keyOf(each.press, "2");
        ask({ kind: "take", studentId, amount: each.amount, why: "other", press, verdict });
        return;
      }
      case "undo": {
        const made = state.presses[each.made % Math.max(1, state.presses.length)];
        if (made === undefined) return;
        ask({ kind: "undo-press", studentId: made.studentId, press: made.press });
        return;
      }
      case "stop":
        ask({ kind: "stop-points", studentId });
        return;
      case "buy": {
        const press = keyOf(each.press, "3");
        exchange.buy({ studentId, privilegeId, price: 5, press });
        bought.push({ studentId, press });
        return;
      }
      case "unbuy": {
        const made = bought[each.made % Math.max(1, bought.length)];
        if (made !== undefined) exchange.undo(made);
        return;
      }
      case "leave-out":
        ask({ kind: "leave-out", reason: "Left out", isTrial: each.isTrial });
        return;
      case "take-in":
        ask({ kind: "take-in" });
        return;
      case "catch-up":
        settled.catchUp(session.id);
    }
  }
}

export { settling };
