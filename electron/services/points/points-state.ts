import type { PointsState, Purse, Saving } from "../../../shared/api/points.ts";
import { localDay } from "../../../shared/calendar/local-day.ts";
import { firstPlan } from "../../../shared/plan/plan.ts";
import { exchangesADay } from "../../../shared/points/exchanges-a-day.ts";
import { givenADay } from "../../../shared/points/given-a-day.ts";
import { type DayOfPoints, savingOf } from "../../../shared/points/saving.ts";
import type { Period } from "../../../shared/roster/privilege.ts";
import { undoPressMs } from "../../../shared/session/decide-points.ts";
import type { LedgerEntry } from "../../store/ledger/entries.ts";
import type { Store } from "../../store/store.ts";
import { knownGroup } from "../base/known.ts";
import { momentOf, type WallClock } from "../base/wall-clock.ts";
import { spendingUntil, timersLeft } from "./class-points.ts";
import { checkedShare } from "./earning-at-start.ts";

/** Saving is looked at over ten days with points; these calendar days hold them, holidays apart. */
const daysLooked = 28;
const dayMs = 86_400_000;

/** How a group's points stand: purses, what can be had, and what was had today. */
export function pointsState(store: Store, clock: WallClock, groupId: string): PointsState {
  knownGroup(store, groupId);
  const plans = store.plans.list(groupId);
  const earns = plans.find(({ settings }) => settings.earning.kind !== "none");
  const { wallMs, offsetMinutes } = momentOf(clock);
  const day = localDay(wallMs, offsetMinutes);
  const purses = store.ledger.purses(groupId, day);
  const entries = store.ledger.ofGroup(
    groupId,
    localDay(wallMs - daysLooked * dayMs, offsetMinutes),
  );
  const periods = store.privileges.periods(groupId);
  const isAllowed = store.settings.get().points;
  const spendUntil = earns === undefined ? spendingUntil(store, groupId, day) : null;
  return {
    on: isAllowed && (earns !== undefined || spendUntil !== null),
    earns: isAllowed && earns !== undefined,
    spendUntil,
    day,
    checkedShare: checkedShare(store, groupId, (earns ?? plans[0])?.settings ?? firstPlan),
    purses,
    privileges: store.privileges.list(groupId),
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
