import { expect, it } from "vitest";
import { contractMoney } from "../../electron/services/points/contract-days.ts";
import type { Store } from "../../electron/store/store.ts";
import type { Contract } from "../../shared/home/contract-terms.ts";
import { noRules } from "../../shared/plan/earning.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import {
  monday,
  temporaryFolder,
  temporaryStore,
} from "../unit/electron/store/temporary-folder.ts";

const dayMs = 86_400_000;
const dayAt = (index: number) => `2026-03-0${2 + index}`;
const when = (index: number) => ({ wallMs: monday + index * dayMs, offsetMinutes: 0 });

/** Four days of seatwork on which work was done, the goal met on every other one, and points were given. */
function fill(store: Store): Contract {
  const { id: groupId } = store.groups.create(
    { name: "Room", target: "", isSample: false },
    monday,
  );
  const [student] = store.students.add(groupId, ["Pine"], monday);
  if (student === undefined) throw new Error("Nobody was added");
  const earning = { kind: "own", rules: noRules, takes: true } as const;
  const plan = { ...firstPlan, earning };
  store.plans.create({ groupId, name: "Plan", settings: plan }, monday);
  for (let index = 0; index < 4; index += 1) {
    const at = { atMs: 0, ...when(index) };
    const { id } = store.sessions.create({
      groupId,
      kind: "seatwork",
      planName: "Plan",
      plan,
      seed: `day ${index}`,
      startedMs: at.wallMs,
      offsetMinutes: 0,
      day: dayAt(index),
    });
    const completed = index % 2 === 0 ? 9 : 2;
    store.log.appendAll(
      id,
      [
        { kind: "begun" },
        { kind: "ended", reason: "teacher" },
        { kind: "total", studentId: student.id, on: 4, off: 1, way: "paper" },
        { kind: "work", studentId: student.id, assigned: 10, completed, correct: null },
      ],
      at,
    );
    store.ledger.add({
      studentId: student.id,
      source: "press",
      sourceKey: `00000000-0000-4000-8000-00000000000${index}`,
      rule: "given",
      revision: 1,
      amount: 6,
      due: null,
      forgiven: 0,
      day: dayAt(index),
      ...when(index),
      reverses: null,
      privilegeId: null,
    });
  }
  const contract: Contract = {
    id: "00000000-0000-7000-8000-000000000001",
    studentId: student.id,
    terms: {
      wording: "young",
      goal: { kind: "work", completed: 0.8, correct: null },
      points: 3,
      earns: "",
      cost: 2,
      checkedBy: "Ms Reed",
    },
    fromDay: dayAt(0),
    reviewOn: "2026-03-16",
    signedOn: dayAt(0),
    endedOn: null,
  };
  store.contracts.add(contract, monday);
  return contract;
}

/** The same store, whose ledger finds the disk full at its nth new entry. */
function fullAt(store: Store, nth: number): Store {
  let entries = 0;
  const add: Store["ledger"]["add"] = (entry) => {
    entries += 1;
    if (entries === nth) throw new Error("disk full");
    store.ledger.add(entry);
  };
  return { ...store, ledger: { ...store.ledger, add } };
}

it("a disk that fills up while days are closed leaves all of them closed or none, and no point twice", () => {
  const whole = temporaryStore(temporaryFolder());
  const contract = fill(whole);
  contractMoney(whole).closeUpTo(contract, dayAt(3), when(3));
  // Two days met it at 3 points, two did not at 2; the presses gave 24.
  expect(whole.ledger.balance(contract.studentId)).toBe(24 + 6 - 4);
  for (let nth = 1; nth <= 4; nth += 1) {
    const store = temporaryStore(temporaryFolder());
    const same = fill(store);
    const money = () => contractMoney(fullAt(store, nth));
    expect(() => money().closeUpTo(same, dayAt(3), when(3))).toThrow("disk full");
    expect(store.contracts.closedDays(same.id)).toEqual([]);
    expect(store.ledger.balance(same.studentId)).toBe(24);
    contractMoney(store).closeUpTo(same, dayAt(3), when(3));
    contractMoney(store).closeUpTo(same, dayAt(3), when(3));
    contractMoney(store).catchUp(dayAt(3), when(3));
    expect(store.contracts.closedDays(same.id)).toHaveLength(4);
    expect(store.ledger.balance(same.studentId)).toBe(26);
  }
});
