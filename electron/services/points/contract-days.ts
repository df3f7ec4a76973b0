import {
  type ContractOutcome,
  contractCost,
  contractOutcome,
} from "../../../shared/home/contract.ts";
import { contractDays } from "../../../shared/home/contract-days.ts";
import { type Contract, holdsOn } from "../../../shared/home/contract-terms.ts";
import { nothingPaid, settle } from "../../../shared/points/settle.ts";
import { newId } from "../../store/new-id.ts";
import type { Store } from "../../store/store.ts";
import type { WallMoment } from "../base/wall-clock.ts";
import { isPaid, isTaken } from "./contract-agreed.ts";
import { leftOutDays } from "./left-out-days.ts";

/** A day under a contract, as the record stands now. */
export interface ContractDayNow {
  readonly day: string;
  readonly outcome: ContractOutcome;
  /** The id under which the ledger knows it; null while it is not closed. */
  readonly closedAs: string | null;
  /** Whether seatwork of the day was left out of the numbers, and the day keeps what it paid all the same. */
  readonly leftOut: { readonly keeps: boolean } | null;
}

/**
 * Days with seatwork under a contract, oldest first, whichever group the student sat in. A day belongs to
 * the contract under which it was closed, also where a later one was signed for the same day.
 */
function daysUnder(store: Store, contract: Contract): ContractDayNow[] {
  const { studentId } = contract;
  if (store.students.get(studentId) === null) return [];
  const { goal } = contract.terms;
  const [closed, elsewhere] = [new Map<string, string>(), new Set<string>()];
  for (const { contractId, day, id } of store.contracts.closedDaysOf(studentId)) {
    if (contractId === contract.id) closed.set(day, id);
    else elsewhere.add(day);
  }
  const counts = store.counts.ofStudent(studentId);
  const leftOut = leftOutDays(store, counts.leftOut);
  const onRecord = contractDays(counts, studentId, goal).filter(
    ({ day }) => closed.has(day) || (holdsOn(contract, day) && !elsewhere.has(day)),
  );
  const outcomes = new Map<string, ContractOutcome>(
    onRecord.map((facts) => [facts.day, contractOutcome(goal, facts)]),
  );
  // A day that was closed stays, also when all of it was left out since: it says so, and counts no more.
  for (const day of closed.keys()) {
    if (leftOut.has(day) && !outcomes.has(day)) outcomes.set(day, "no-data");
  }
  return [...outcomes.keys()].sort().map((day) => ({
    day,
    outcome: outcomes.get(day) ?? "no-data",
    closedAs: closed.get(day) ?? null,
    leftOut: leftOut.get(day) ?? null,
  }));
}

/**
 * The days of contracts, and what they pay and cost. What a day costs is decided once, when it is closed;
 * what it earned follows the record like everything that is earned, and moves by the difference alone.
 */
export function contractMoney(store: Store) {
  const { ledger, contracts } = store;

  /**
   * Brings what a closed day earned to what the record says. What a day has paid once it goes on to pay: points
   * that are ended, switched off or declined later take nothing away that was earned before, nor does a session
   * that is left out, unless it was a trial.
   */
  function payDay(
    contract: Contract,
    { day, outcome, closedAs, leftOut }: ContractDayNow,
    when: WallMoment,
  ): void {
    if (closedAs === null) return;
    const { studentId } = contract;
    const paid = ledger.paid("contract", closedAs, studentId).get("given") ?? nothingPaid;
    const pays = paid.revision > 0 || isPaid(store, studentId);
    const earned = outcome === "met" && pays ? contract.terms.points : 0;
    const due = leftOut?.keeps === true ? Math.max(paid.due, earned) : earned;
    const payment = settle(paid, due, ledger.balance(studentId));
    if (payment === null) return;
    const facts = { studentId, source: "contract", sourceKey: closedAs, rule: "given" } as const;
    ledger.add({ ...facts, ...payment, day, ...when });
  }

  function costDay(
    contract: Contract,
    { day, outcome }: ContractDayNow,
    id: string,
    when: WallMoment,
  ) {
    const { studentId, terms, signedOn } = contract;
    // Written on Monday and signed on Wednesday: on Tuesday nobody had agreed to a cost.
    const isAgreed = signedOn !== null && signedOn <= day;
    const amount = contractCost(terms.goal, {
      outcome,
      cost: isAgreed && isTaken(store, studentId) ? terms.cost : 0,
      stopped: ledger.isStopped(studentId, day),
      balance: ledger.balance(studentId),
      day: ledger.givenTakenOn(studentId, day),
      lately: ledger.givenTakenLately(studentId),
    });
    if (amount === 0) return;
    const facts = { studentId, source: "contract", sourceKey: id, rule: "taken" } as const;
    ledger.add({
      ...facts,
      revision: 1,
      amount: -amount,
      day,
      ...when,
    });
  }

  /** Closes days in their order: cost is decided, then what was earned is paid. */
  function close(contract: Contract, days: readonly ContractDayNow[], when: WallMoment): void {
    const { id: contractId, studentId } = contract;
    store.transaction(() => {
      for (const each of days) {
        if (each.closedAs !== null) continue;
        const id = newId(when.wallMs);
        contracts.close({ id, contractId, studentId, day: each.day }, when.wallMs);
        costDay(contract, each, id, when);
        payDay(contract, { ...each, closedAs: id }, when);
      }
    });
  }

  return {
    daysOf: (contract: Contract) => daysUnder(store, contract),

    /** Closes the days of a contract up to one, that one too. */
    closeUpTo(contract: Contract, day: string, when: WallMoment): void {
      close(
        contract,
        daysUnder(store, contract).filter((each) => each.day <= day),
        when,
      );
    },

    /**
     * Brings all contracts up to today: earlier days are closed, and closed ones pay what the record says
     * now. Any number of times; how many contracts moved anything.
     *
     * @param today school-local day; it stays open until somebody closes it, or it is over
     */
    catchUp(today: string, when: WallMoment): number {
      let moved = 0;
      for (const { id: groupId } of store.groups.list(false)) {
        for (const contract of contracts.ofGroup(groupId)) {
          if (contract.signedOn === null) continue;
          const days = daysUnder(store, contract);
          const open = days.filter(({ day, closedAs }) => closedAs === null && day < today);
          const before = ledger.allOf(contract.studentId).length;
          close(contract, open, when);
          store.transaction(() => {
            for (const each of days) payDay(contract, each, when);
          });
          if (open.length > 0 || ledger.allOf(contract.studentId).length !== before) moved += 1;
        }
      }
      return moved;
    },
  };
}
export type ContractMoney = ReturnType<typeof contractMoney>;
