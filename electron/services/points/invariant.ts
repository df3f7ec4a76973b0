import { worthOf, worthRules } from "../../../shared/points/worth.ts";
import { replay } from "../../../shared/session/reduce.ts";
import type { Store } from "../../store/store.ts";
import { unpaidIn } from "./settling.ts";

/**
 * What the ledger says of a session that its log does not, one line each; none when all is well. By rule:
 * amounts add up to the newest due plus what is forgiven, which is not below zero, and the newest due is
 * what the log is worth. No balance is below zero, and each press has exactly one entry.
 */
export function ledgerProblems(
  store: Pick<Store, "sessions" | "students" | "ledger" | "log" | "agreed">,
  sessionId: string,
): string[] {
  const { sessions, students, ledger, log } = store;
  const session = sessions.get(sessionId);
  if (session === null) return [];
  const state = replay(log.read(sessionId, 0));
  const payer = {
    kind: session.kind,
    earning: session.plan.earning,
    imported: ledger.isImported(sessionId),
  };
  const problems: string[] = [];
  const unpaid = unpaidIn(store, session);
  for (const { id } of students.listAll(session.groupId)) {
    const worth = unpaid.has(id) ? null : worthOf(payer, state, id);
    const paid = ledger.paid("session", sessionId, id);
    for (const rule of worthRules) {
      const { due, forgiven, amount } = paid.get(rule) ?? { due: 0, forgiven: 0, amount: 0 };
      const wanted = worth?.[rule] ?? 0;
      if (due !== wanted) problems.push(`${rule}: due ${due}, worth ${wanted}`);
      if (forgiven < 0) problems.push(`${rule}: forgiven ${forgiven}`);
      if (amount !== due + forgiven)
        problems.push(`${rule}: paid ${amount} of ${due} + ${forgiven}`);
    }
    const balance = ledger.balance(id);
    if (balance < 0) problems.push(`balance ${balance}`);
  }
  for (const { press, studentId, kind, undone } of state.presses) {
    const entry = ledger.find("press", press, studentId);
    if (entry === null) problems.push(`${kind}: no entry`);
    else if (entry.revision !== 1) problems.push(`${kind}: ${entry.revision} entries`);
    else if (entry.reversed !== undone) problems.push(`${kind}: undone ${undone}`);
  }
  return problems;
}
