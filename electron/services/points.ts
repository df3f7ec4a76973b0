import type { Purse, Saving } from "../../shared/api/points.ts";
import type { Session } from "../../shared/api/sessions.ts";
import { localDay } from "../../shared/calendar/local-day.ts";
import { takesPoints } from "../../shared/plan/earning.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { exchangesADay } from "../../shared/points/exchanges-a-day.ts";
import { givenADay } from "../../shared/points/given-a-day.ts";
import { takeRefusal } from "../../shared/points/guard.ts";
import { type DayOfPoints, savingOf } from "../../shared/points/saving.ts";
import type { Period } from "../../shared/roster/privilege.ts";
import { undoPressMs } from "../../shared/session/decide-points.ts";
import type { LedgerEntry } from "../store/ledger.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup, knownStudent, studentOfSession } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import { momentOf, type WallClock } from "./base/wall-clock.ts";
import type { Conductor } from "./live/conductor.ts";
import { sessionStudents } from "./live/session-summary.ts";
import { classPoints, spendingUntil, timersLeft } from "./points/class-points.ts";
import { checkedShare } from "./points/earning-at-start.ts";
import { exchanges } from "./points/exchange.ts";
import { ledgerLines } from "./points/ledger-lines.ts";
import { newestUndoable, takeInputs } from "./points/take-inputs.ts";

/** Saving is looked at over ten days with points; these calendar days hold them, holidays apart. */
const daysLooked = 28;
/** Entries of one answer: some 1.5 MB of the longest message. */
const entriesInPiece = 5_000;
const dayMs = 86_400_000;

/** Points: what was earned, given, taken and exchanged. */
export function pointsHandlers(
  store: Store,
  conductor: Conductor,
  changes: Changes,
  clock: WallClock,
): Handlers["points"] {
  const { ledger, privileges } = store;
  const exchange = exchanges(store, clock);
  const when = () => momentOf(clock);

  /** A session that earns, and a student of it. */
  function earning(sessionId: string, studentId?: string): Session {
    const session = store.sessions.get(sessionId);
    if (session === null) throw new Missing("session");
    if (session.plan.earning.kind === "none") {
      throw new Refusal("points-off", "This session earns no points.");
    }
    if (studentId !== undefined) studentOfSession(store, session, studentId);
    return session;
  }

  return {
    state({ groupId }) {
      knownGroup(store, groupId);
      const plans = store.plans.list(groupId);
      const earns = plans.find(({ settings }) => settings.earning.kind !== "none");
      const { wallMs, offsetMinutes } = when();
      const day = localDay(wallMs, offsetMinutes);
      const purses = ledger.purses(groupId, day);
      const entries = ledger.ofGroup(groupId, localDay(wallMs - daysLooked * dayMs, offsetMinutes));
      const periods = privileges.periods(groupId);
      const isAllowed = store.settings.get().points;
      const spendUntil = earns === undefined ? spendingUntil(store, groupId, day) : null;
      return {
        on: isAllowed && (earns !== undefined || spendUntil !== null),
        earns: isAllowed && earns !== undefined,
        spendUntil,
        day,
        checkedShare: checkedShare(store, groupId, (earns ?? plans[0])?.settings ?? firstPlan),
        purses,
        privileges: privileges.list(groupId),
        periods,
        receipts: entries
          .filter((entry) => entry.source === "exchange" && entry.day === day)
          .map((entry) => ({
            studentId: entry.studentId,
            privilegeId: entry.privilegeId,
            press: entry.sourceKey,
            price: -entry.amount,
            wallMs: entry.wallMs,
            undone: entry.reversed,
            canUndo: !entry.reversed && wallMs - entry.wallMs <= undoPressMs,
          }))
          .reverse(),
        saving: savingNow(purses, entries),
        givenADay: givenOf(entries),
        exchanges: exchangesOf(periods, entries),
        ownGoals: store.wishes.ownGoals(groupId),
        savingFor: store.wishes.savingFor(groupId),
        timers: timersLeft(store, groupId, wallMs),
      };
    },

    give({ sessionId, studentId, amount, why, press }) {
      const { groupId } = earning(sessionId, studentId);
      if (store.agreed.saidNo(groupId, "points").has(studentId)) {
        throw new Refusal("points-not-agreed", "It was agreed that this student earns no points.");
      }
      conductor.command(sessionId, { kind: "give", studentId, amount, why, press });
      return {};
    },

    take({ sessionId, studentId, amount, why, press }) {
      const session = earning(sessionId, studentId);
      if (store.agreed.saidNo(session.groupId, "taken").has(studentId)) {
        throw new Refusal("taking-not-agreed", "It was agreed that no points are taken here.");
      }
      if (!takesPoints(session.plan.earning)) {
        throw new Refusal("points-taking-off", "In this session no points are taken.");
      }
      const state = conductor.stateOf(sessionId);
      const verdict = takeRefusal(takeInputs(ledger, session, state, studentId, when()), amount);
      const asked = { kind: "take", studentId, amount, why, press, verdict } as const;
      conductor.command(sessionId, asked);
      return {};
    },

    undoPress({ sessionId, studentId, press }) {
      earning(sessionId, studentId);
      conductor.command(sessionId, { kind: "undo-press", studentId, press });
      return {};
    },

    stop({ sessionId, studentId }) {
      earning(sessionId, studentId);
      conductor.command(sessionId, { kind: "stop-points", studentId });
      return {};
    },

    standings({ sessionId }) {
      const session = earning(sessionId);
      const state = conductor.stateOf(sessionId);
      const unpaid = store.agreed.saidNo(session.groupId, "points");
      const paid = sessionStudents(store, session).filter(({ id }) => !unpaid.has(id));
      return paid.map(({ id }) => {
        const { balance, today, stoppedToday } = takeInputs(ledger, session, state, id, when());
        const newestTake = newestUndoable(state, id, clock.wallMs());
        return { studentId: id, balance, ...today, stopped: stoppedToday, newestTake };
      });
    },

    savePluses({ sessionId, pluses }) {
      for (const { studentId } of pluses) earning(sessionId, studentId);
      const newest = [...new Map(pluses.map((each) => [each.studentId, each])).values()];
      conductor.command(sessionId, { kind: "enter-pluses", pluses: newest });
      return {};
    },

    buy(purchase) {
      exchange.buy(purchase);
      changes.publish("points");
      return {};
    },

    undoBuy(purchase) {
      exchange.undo(purchase);
      changes.publish("points");
      return {};
    },

    addPrivilege(facts) {
      knownGroup(store, facts.groupId);
      const made = privileges.create(facts, clock.wallMs());
      changes.publish("points");
      return made;
    },

    savePrivilege(privilege) {
      if (privileges.get(privilege.id) === null) throw new Missing("privilege");
      privileges.update(privilege);
      changes.publish("points");
      return privilege;
    },

    archivePrivilege({ id }) {
      if (privileges.get(id) === null) throw new Missing("privilege");
      privileges.archive(id, clock.wallMs());
      changes.publish("points");
      return {};
    },

    ledger({ groupId, after }) {
      knownGroup(store, groupId);
      const entries = ledger.page(groupId, after, entriesInPiece);
      const last = entries.at(-1);
      const isWhole = last === undefined || entries.length < entriesInPiece;
      return { lines: ledgerLines(entries, privileges), next: isWhole ? null : last.number };
    },

    saveOwnGoal({ studentId, share }) {
      knownStudent(store, studentId);
      store.wishes.saveOwnGoal(studentId, share);
      changes.publish("points");
      return {};
    },

    endEarning({ groupId, until }) {
      knownGroup(store, groupId);
      store.transaction(() => {
        for (const { id, name, settings } of store.plans.list(groupId)) {
          if (settings.earning.kind === "none") continue;
          store.plans.update({ id, name, settings: { ...settings, earning: { kind: "none" } } });
        }
        store.wishes.saveSpendUntil(groupId, until);
      });
      changes.publish("plans", "points", "program");
      return {};
    },

    ...classPoints(store, changes, clock),

    savePeriods({ groupId, periods }) {
      knownGroup(store, groupId);
      privileges.savePeriods(groupId, periods, clock.wallMs());
      changes.publish("points", "program");
      return {};
    },
  };
}

function givenOf(entries: readonly LedgerEntry[]) {
  const given = entries.filter(({ rule }) => rule === "given");
  const days = entries.filter(({ rule }) => rule !== "exchange").map(({ day }) => day);
  return [...givenADay(given, days)].map(([studentId, points]) => ({ studentId, points }));
}

/** By the periods that end with an exchange, or else as it was lately. */
function exchangesOf(periods: readonly Period[], entries: readonly LedgerEntry[]): number {
  if (periods.length > 0) return Math.max(1, periods.filter(({ exchange }) => exchange).length);
  return exchangesADay(
    entries.filter(({ source, reversed }) => source === "exchange" && !reversed),
  );
}

/** Points given and spent by day, oldest first. */
function daysOf(entries: readonly LedgerEntry[]): DayOfPoints[] {
  const days = new Map<string, DayOfPoints>();
  for (const { day, rule, amount } of entries) {
    const { given, spent } = days.get(day) ?? { given: 0, spent: 0 };
    const isSpent = rule === "exchange";
    days.set(day, {
      day,
      given: given + (isSpent ? 0 : amount),
      spent: spent - (isSpent ? amount : 0),
    });
  }
  return [...days.values()].sort((first, second) => (first.day < second.day ? -1 : 1));
}

function savingNow(purses: readonly Purse[], entries: readonly LedgerEntry[]): Saving {
  const { notSpending, ...saving } = savingOf(
    purses.map(({ studentId, balance }) => ({
      studentId,
      balance,
      days: daysOf(entries.filter((entry) => entry.studentId === studentId)),
    })),
  );
  return { ...saving, notSpending: [...notSpending] };
}
