import type { Earning } from "../../../shared/plan/earning.ts";
import { usualRules } from "../../../shared/points/truth.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import type { Store } from "../../store/store.ts";
import { givenWords } from "../base/given-words.ts";
import { exchanges } from "./exchange.ts";
import { settling } from "./settling.ts";

/** The invented class is checked about once in sixteen cues of a student, too rarely to pay for on task. */
const checkedShare = 1 / 16;

/** What the invented class earns, week after week. */
export const sampleEarning: Earning = { kind: "usual", rules: usualRules(checkedShare) };

/** Prices of the invented privileges, by their place in the list. */
const prices = [6, 8, 15] as const;
const pictures = ["house", "book", "balloon"] as const;
const exchangeAfterMs = 1_800_000;

/**
 * Settles the sessions of the invented class and lets its students exchange what they earned, most of them
 * half an hour after each session.
 */
export function addSamplePoints(store: Store, groupId: string): void {
  const names = givenWords[store.settings.get().language].samplePrivileges;
  const madeMs = store.groups.madeMs(groupId) ?? 0;
  const privileges = names.map((name, place) =>
    store.privileges.create(
      {
        groupId,
        name,
        picture: pictures[place] ?? null,
        price: prices[place] ?? 6,
        band: place === 2 ? 3 : place === 1 ? 2 : 1,
        places: null,
        minutes: null,
        perDay: null,
        notFor: [],
      },
      madeMs,
    ),
  );
  const settled = settling(store);
  const students = store.students.list(groupId, false);
  const stream = randomStream("sample", "exchanges");
  const sessions = store.sessions.list(groupId, 100).reverse();
  for (const session of sessions) {
    settled.catchUp(session.id);
    const wallMs = session.startedMs + session.plan.lengthSeconds * 1_000 + exchangeAfterMs;
    const exchange = exchanges(store, {
      wallMs: () => wallMs,
      offsetMinutes: () => session.offsetMinutes,
    });
    for (const student of students) {
      const [wish, press] = [stream(), pressFrom(stream)];
      const privilege = privileges[Math.floor(wish * 4)];
      const balance = store.ledger.balance(student.id);
      if (privilege === undefined || balance < privilege.price) continue;
      const { id: privilegeId, price } = privilege;
      exchange.buy({ studentId: student.id, privilegeId, price, press });
    }
  }
}

/** An id of a press, drawn like everything else of the invented class. */
function pressFrom(stream: () => number): string {
  const digits = Array.from({ length: 32 }, () => Math.floor(16 * stream()).toString(16));
  digits[12] = "4";
  digits[16] = "8";
  const text = digits.join("");
  return [
    text.slice(0, 8),
    text.slice(8, 12),
    text.slice(12, 16),
    text.slice(16, 20),
    text.slice(20),
  ].join("-");
}
