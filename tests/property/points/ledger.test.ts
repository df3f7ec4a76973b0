import fc from "fast-check";
import { expect, it } from "vitest";
import { ledgerProblems } from "../../../electron/services/points/invariant.ts";
import { nothingPaid, type Paid, settle } from "../../../shared/points/settle.ts";
import { temporaryStore } from "../../unit/electron/store/temporary-folder.ts";
import { happening, live, makeHistory, settling } from "./history.ts";

class RolledBack extends Error {}

/** Each history is a session in a database; before a release four times as many are lived through. */
const histories = process.env.PEBBLECHIME_ISOLATED === undefined ? 5_000 : 20_000;

it("the ledger is what the log says, whatever happened, and no balance is below zero", () => {
  const store = temporaryStore();
  const history = makeHistory(store);
  const settled = settling(store);
  const undone = { taken: 0, other: 0 };
  fc.assert(
    fc.property(fc.array(happening, { minLength: 1, maxLength: 24 }), (happenings) => {
      try {
        // Nothing waits for the disk, and every history begins with empty purses.
        store.transaction(() => {
          settled.forget();
          const sessionId = live(store, settled, history, happenings);
          expect(ledgerProblems(store, sessionId)).toEqual([]);
          const entries = store.ledger.ofGroup(history.groupId);
          settled.catchUp(sessionId);
          expect(store.ledger.ofGroup(history.groupId)).toHaveLength(entries.length);
          for (const { source, rule } of entries) {
            if (source === "reversal") undone[rule === "taken" ? "taken" : "other"]++;
          }
          throw new RolledBack();
        });
      } catch (error) {
        if (!(error instanceof RolledBack)) throw error;
      }
    }),
    { numRuns: histories },
  );
  // Takes are rare and so are their undoings: the histories must hold some all the same.
  expect(undone.taken).toBeGreaterThan(histories / 200);
  expect(undone.other).toBeGreaterThan(histories / 40);
}, 300_000);

it("settling pays the difference and never twice, through any worth and any spending", () => {
  const step = fc.record({ due: fc.nat(30), spent: fc.nat(20) });
  fc.assert(
    fc.property(fc.array(step, { maxLength: 30 }), (steps) => {
      let paid: Paid = nothingPaid;
      let [balance, amounts] = [0, 0];
      for (const { due, spent } of steps) {
        for (let again = 0; again < 2; again++) {
          const payment = settle(paid, due, balance);
          if (payment === null) continue;
          expect(again).toBe(0);
          balance += payment.amount;
          amounts += payment.amount;
          const forgiven = paid.forgiven + payment.forgiven;
          paid = { due, revision: payment.revision, forgiven };
        }
        expect(paid.forgiven).toBeGreaterThanOrEqual(0);
        expect(amounts).toBe(paid.due + paid.forgiven);
        balance -= Math.min(balance, spent);
        expect(balance).toBeGreaterThanOrEqual(0);
      }
    }),
    { numRuns: 20_000 },
  );
});
