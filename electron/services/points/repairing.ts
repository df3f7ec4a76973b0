import { rulesOf, worthRules } from "../../../shared/points/worth.ts";
import { reduce } from "../../../shared/session/reduce.ts";
import { emptySession } from "../../../shared/session/state.ts";
import type { Store } from "../../store/store.ts";
import type { WallMoment } from "../base/wall-clock.ts";
import { ledgerProblems } from "./invariant.ts";
import { followPress, type Paying, settleStudent, unpaidIn } from "./settling.ts";

type RepairedStore = Pick<
  Store,
  "transaction" | "sessions" | "students" | "ledger" | "log" | "agreed"
>;

/**
 * Holds the ledger of one session that has ended to its log, and where they differ brings the ledger after
 * the log: presses without an entry get one, every rule is settled anew, a sum that does not add up is made
 * to by a further entry, and a balance below zero is forgiven. Nothing that is written changes.
 *
 * @returns what was wrong, one line each; none when all was well, or the session is open or pays nothing
 */
export function repairSession(store: RepairedStore, sessionId: string): string[] {
  const session = store.sessions.get(sessionId);
  if (session === null) return [];
  const { kind, plan } = session;
  const payer = { kind, earning: plan.earning, imported: store.ledger.isImported(sessionId) };
  if (rulesOf(payer) === null) return [];
  const paying: Paying = { session, payer, unpaid: unpaidIn(store, session) };
  return store.transaction(() => {
    const events = store.log.read(sessionId, 0);
    const last = events.at(-1);
    let state = emptySession;
    for (const event of events) state = reduce(state, event);
    if (last === undefined || state.status !== "ended") return [];
    const problems = ledgerProblems(store, sessionId);
    if (problems.length === 0) return [];
    let upTo = emptySession;
    for (const event of events) {
      upTo = reduce(upTo, event);
      followPress(store.ledger, event, upTo);
    }
    for (const { id } of store.students.listAll(session.groupId)) {
      balanceRules(store, paying, id, last.stamp);
      settleStudent(store.ledger, paying, state, id, last.stamp);
      forgiveDebt(store, paying, id, last.stamp);
    }
    return problems;
  });
}

/** A further entry for each rule whose amounts do not add up to what is due and forgiven. */
function balanceRules(
  { ledger }: RepairedStore,
  { session }: Paying,
  studentId: string,
  { wallMs, offsetMinutes }: WallMoment,
): void {
  const paid = ledger.paid("session", session.id, studentId);
  for (const rule of worthRules) {
    const of = paid.get(rule);
    const missing = of === undefined ? 0 : of.due + of.forgiven - of.amount;
    if (of === undefined || missing === 0) continue;
    const amount = Math.max(missing, -ledger.balance(studentId));
    ledger.add({
      studentId,
      source: "session",
      sourceKey: session.id,
      rule,
      revision: of.revision + 1,
      amount,
      due: of.due,
      forgiven: amount - missing,
      day: session.day,
      wallMs,
      offsetMinutes,
    });
  }
}

/** No child ever owes points. */
function forgiveDebt(
  { ledger }: RepairedStore,
  { session }: Paying,
  studentId: string,
  { wallMs, offsetMinutes }: WallMoment,
): void {
  const balance = ledger.balance(studentId);
  if (balance >= 0) return;
  const before = ledger.find("opening", session.id, studentId);
  ledger.add({
    studentId,
    source: "opening",
    sourceKey: session.id,
    rule: "given",
    revision: (before?.revision ?? 0) + 1,
    amount: -balance,
    forgiven: -balance,
    day: session.day,
    wallMs,
    offsetMinutes,
  });
}
