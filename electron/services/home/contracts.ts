import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import { longestToReview } from "../../../shared/home/contract.ts";
import { mayMeasure, selfMatch } from "../../../shared/home/contract-match.ts";
import { type Contract, holdsOn } from "../../../shared/home/contract-terms.ts";
import { newId } from "../../store/new-id.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { Handlers } from "../base/handlers.ts";
import { knownGroup, knownStudent } from "../base/known.ts";
import { Missing, Refusal } from "../base/refusal.ts";
import { momentOf, todayOf, type WallClock } from "../base/wall-clock.ts";
import { contractMoney } from "../points/contract-days.ts";

/** Contracts: written with the student, signed by both, looked at together within three weeks. */
export function contractHandlers(
  store: Store,
  changes: Changes,
  clock: WallClock,
): Handlers["contracts"] {
  const { contracts, ledger } = store;
  const money = contractMoney(store);
  const when = () => momentOf(clock);
  const today = () => todayOf(clock);

  function one(id: string): Contract {
    const contract = contracts.get(id);
    if (contract === null) throw new Missing("contract");
    return contract;
  }

  return {
    ofStudent({ studentId }) {
      const entries = ledger
        .allOf(knownStudent(store, studentId).id)
        .filter(({ source }) => source === "contract");
      const sumOf = (id: string | null, rule: "given" | "taken") =>
        entries
          .filter((entry) => entry.sourceKey === id && entry.rule === rule)
          .reduce((total, { amount }) => total + amount, 0);
      return contracts.ofStudent(studentId).map((contract) => ({
        contract,
        days: money.daysOf(contract).map(({ day, outcome, closedAs, leftOut }) => ({
          day,
          outcome,
          closed: closedAs !== null,
          leftOut: leftOut !== null,
          gained: sumOf(closedAs, "given"),
          cost: 0 - sumOf(closedAs, "taken"),
        })),
      }));
    },

    ofGroup({ groupId }) {
      knownGroup(store, groupId);
      return contracts.ofGroup(groupId).filter(({ endedOn }) => endedOn === null);
    },

    add(facts) {
      const { groupId } = knownStudent(store, facts.studentId);
      refuseLateReview(facts);
      const counts = store.counts.ofGroup(groupId);
      if (!mayMeasure(facts.terms.goal, selfMatch(counts, facts.studentId))) {
        throw new Refusal(
          "contract-match-low",
          "Self-records match the spot checks too rarely to be the measure. Take work done, or what an adult sees.",
        );
      }
      const nowMs = clock.wallMs();
      const contract = { ...facts, id: newId(nowMs), signedOn: null, endedOn: null };
      contracts.add(contract, nowMs);
      changes.publish("home");
      return contract;
    },

    sign({ id }) {
      const contract = one(id);
      if (contract.signedOn === null && contract.endedOn === null) {
        store.transaction(() => {
          contracts.sign(id, today());
          const dayBefore = dayText(dayNumber(contract.fromDay) - 1);
          for (const other of contracts.ofStudent(contract.studentId)) {
            if (other.id !== id && other.endedOn === null) contracts.end(other.id, dayBefore);
          }
        });
        changes.publish("home");
      }
      return {};
    },

    end({ id }) {
      if (one(id).endedOn === null) {
        contracts.end(id, today());
        changes.publish("home");
      }
      return {};
    },

    closeDay({ id, day }) {
      const contract = one(id);
      if (!holdsOn(contract, day)) {
        throw new Refusal("contract-unsigned", "This contract does not hold on that day.");
      }
      if (day > today() || !money.daysOf(contract).some((each) => each.day === day)) {
        throw new Refusal("contract-day-early", "There is no session of this day to be closed.");
      }
      money.closeUpTo(contract, day, when());
      changes.publish("home", "points");
      return {};
    },
  };
}

function refuseLateReview({ fromDay, reviewOn }: Pick<Contract, "fromDay" | "reviewOn">): void {
  const ahead = dayNumber(reviewOn) - dayNumber(fromDay);
  if (ahead >= 1 && ahead <= longestToReview) return;
  throw new Refusal(
    "contract-review-late",
    "A contract is looked at together after its first day and within three weeks.",
  );
}
