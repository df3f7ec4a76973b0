import type { Session } from "../../../shared/api/sessions.ts";
import { localDay } from "../../../shared/calendar/local-day.ts";
import { nothingPaid, settle, takenBack } from "../../../shared/points/settle.ts";
import { type Payer, rulesOf, worthOf, worthRules } from "../../../shared/points/worth.ts";
import type { SessionEvent, SessionEventBody } from "../../../shared/session/event.ts";
import { reduce, replay } from "../../../shared/session/reduce.ts";
import { emptySession, type SessionState } from "../../../shared/session/state.ts";
import type { LedgerRule, LedgerSource } from "../../store/ledger/entries.ts";
import type { Ledger } from "../../store/ledger.ts";
import type { SessionLog, UnnumberedStamp } from "../../store/session-log.ts";
import { type Store, StoreError } from "../../store/store.ts";
import type { WallMoment } from "../base/wall-clock.ts";

type SettledStore = Pick<
  Store,
  "transaction" | "sessions" | "students" | "ledger" | "log" | "agreed"
>;

/** What settling knows of a session that earns. */
export interface Paying {
  readonly session: Session;
  readonly payer: Payer;
  /** Who, as was agreed when it began, earns no points. */
  readonly unpaid: ReadonlySet<string>;
}

/** Whom a session pays nothing, because that was agreed when it began. */
export const unpaidIn = (
  { agreed }: Pick<Store, "agreed">,
  { groupId, startedMs }: Pick<Session, "groupId" | "startedMs">,
): ReadonlySet<string> => agreed.hadSaidNo(groupId, "points", startedMs);

/** Brings the ledger to what the log says. */
export type Settling = ReturnType<typeof settling>;

/**
 * The session log, with the ledger following it: what is appended and what it is worth are written in one
 * transaction, so that a crash leaves both or neither.
 *
 * Each event is followed by itself and in the order of the log; so however often the app was stopped, the
 * ledger comes out the same. What a session is worth is settled when the next cue is delivered, when it
 * ends, and with everything entered afterwards; presses at once.
 */
export function settling(store: SettledStore) {
  const { ledger, log } = store;
  const known = new Map<string, Paying | null>();
  let kept: { readonly sessionId: string; readonly state: SessionState } | null = null;

  /** The facts of a session that earns; null for all others. */
  function payingOf(sessionId: string): Paying | null {
    const before = known.get(sessionId);
    if (before !== undefined) return before;
    const session = store.sessions.get(sessionId);
    if (session === null) return null;
    const { kind, plan } = session;
    const payer = { kind, earning: plan.earning, imported: ledger.isImported(sessionId) };
    const unpaid = unpaidIn(store, session);
    const paying = rulesOf(payer) === null ? null : { session, payer, unpaid };
    known.set(sessionId, paying);
    return paying;
  }

  function stateBefore(sessionId: string, seq: number): SessionState {
    if (kept?.sessionId === sessionId && kept.state.lastSeq === seq - 1) return kept.state;
    return replay(log.read(sessionId, 0).filter(({ stamp }) => stamp.seq < seq));
  }

  /** Follows events that are in the log already and that the ledger has not seen. */
  function follow(paying: Paying, before: SessionState, events: readonly SessionEvent[]): void {
    const { id } = paying.session;
    let state = before;
    for (const event of events) {
      state = reduce(state, event);
      followPress(ledger, event, state);
      const whom = whomToSettle(event.body, state, () => takingPart(paying, state));
      for (const studentId of whom) settleStudent(ledger, paying, state, studentId, event.stamp);
    }
    const last = events.at(-1);
    if (last !== undefined) ledger.setSettled(id, last.stamp.seq);
    kept = { sessionId: id, state };
  }

  /** Whoever is in the log, and where time pays everybody else of the group too. */
  function takingPart({ session, payer }: Paying, state: SessionState): string[] {
    const ids = new Set([
      ...state.marks.keys(),
      ...state.totals.keys(),
      ...state.pluses.keys(),
      ...state.work.keys(),
    ]);
    if ((rulesOf(payer)?.minute ?? 0) > 0) {
      for (const { id } of store.students.list(session.groupId, false)) ids.add(id);
    }
    return [...ids];
  }

  return {
    /** See `SessionLog`; the ledger follows in the same transaction. */
    appendAll(
      sessionId: string,
      bodies: readonly SessionEventBody[],
      stamp: UnnumberedStamp,
    ): SessionEvent[] {
      const paying = payingOf(sessionId);
      if (paying === null) return log.appendAll(sessionId, bodies, stamp);
      try {
        return store.transaction(() => {
          const events = log.appendAll(sessionId, bodies, stamp);
          const [first] = events;
          if (first !== undefined) follow(paying, stateBefore(sessionId, first.stamp.seq), events);
          return events;
        });
      } catch (error) {
        // What was not written must not be believed.
        kept = null;
        throw error;
      }
    },

    /**
     * Brings the ledger of one session to the end of its log; the number of events it was behind. Any
     * number of times.
     */
    catchUp(sessionId: string): number {
      const paying = payingOf(sessionId);
      if (paying === null) return 0;
      return store.transaction(() => {
        const events = log.read(sessionId, 0);
        const from = ledger.settledSeq(sessionId);
        const seen = events.filter(({ stamp }) => stamp.seq <= from);
        const ahead = events.filter(({ stamp }) => stamp.seq > from);
        follow(paying, replay(seen, emptySession), ahead);
        return ahead.length;
      });
    },

    /**
     * At start: every session whose log is ahead of the ledger; how many there were. A session that
     * cannot be read waits until it is repaired, and keeps no other waiting.
     */
    catchUpAll(): number {
      return ledger.unsettled().filter((sessionId) => {
        try {
          this.catchUp(sessionId);
          return true;
        } catch (error) {
          if (!isDamage(error)) throw error;
          return false;
        }
      }).length;
    },

    /** After something was erased from the log. */
    forget(): void {
      kept = null;
      known.clear();
    },
  };
}

const isDamage = (error: unknown): boolean =>
  error instanceof StoreError && (error.problem === "entry-damaged" || error.problem === "damaged");

/** The log as the conductor takes it. */
export type SettledLog = Pick<SessionLog, "appendAll" | "read" | "openSessionId">;

/** What changes the worth of everybody's session, or closes a cue's marks. */
const tellsOfAll: readonly SessionEventBody["kind"][] = [
  "delivered",
  "ended",
  "left-out",
  "taken-in",
];

/** Whose worth is settled after an event: the student it speaks of, everybody, or nobody yet. */
function whomToSettle(
  body: SessionEventBody,
  state: SessionState,
  everybody: () => string[],
): readonly string[] {
  if (tellsOfAll.includes(body.kind)) return everybody();
  const studentId = "studentId" in body ? body.studentId : undefined;
  return state.status !== "ended" || studentId === undefined ? [] : [studentId];
}

/** Pays a student the difference between what the session is worth and what it paid, by each rule. */
export function settleStudent(
  ledger: Ledger,
  { session, payer, unpaid }: Paying,
  state: SessionState,
  studentId: string,
  { wallMs, offsetMinutes }: WallMoment,
): void {
  if (unpaid.has(studentId)) return;
  const worth = worthOf(payer, state, studentId);
  const paid = ledger.paid("session", session.id, studentId);
  for (const rule of worthRules) {
    const before = paid.get(rule) ?? nothingPaid;
    // Only a fall asks for the balance, which takes adding up.
    const balance = worth[rule] < before.due ? ledger.balance(studentId) : 0;
    const payment = settle(before, worth[rule], balance);
    if (payment === null) continue;
    ledger.add({
      studentId,
      source: "session",
      sourceKey: session.id,
      rule,
      ...payment,
      day: session.day,
      wallMs,
      offsetMinutes,
    });
  }
}

/** Points given and taken at once, and presses that are taken back. */
export function followPress(
  ledger: Ledger,
  { body, stamp }: SessionEvent,
  state: SessionState,
): void {
  if (body.kind === "given") {
    const facts = { rule: "given", amount: body.amount, forgiven: 0 } as const;
    addPress(ledger, "press", body.studentId, body.press, stamp, facts);
  } else if (body.kind === "taken") {
    const taken = takenBack(body.amount, ledger.balance(body.studentId));
    addPress(ledger, "press", body.studentId, body.press, stamp, { rule: "taken", ...taken });
  } else if (body.kind === "ungiven") {
    undoPress(ledger, body.studentId, pressAt(state, body.givenSeq), stamp);
  } else if (body.kind === "untaken") {
    undoPress(ledger, body.studentId, pressAt(state, body.takenSeq), stamp);
  }
}

const pressAt = ({ presses }: SessionState, seq: number): string | undefined =>
  presses.find((each) => each.seq === seq)?.press;

function undoPress(
  ledger: Ledger,
  studentId: string,
  press: string | undefined,
  when: WallMoment,
): void {
  if (press === undefined) return;
  const undone = ledger.find("press", press, studentId);
  if (undone === null || undone.reversed) return;
  const back =
    undone.rule === "given"
      ? takenBack(undone.amount, ledger.balance(studentId))
      : { amount: -undone.amount, forgiven: 0 };
  // Of the day of its press, also where midnight lies between the two.
  const facts = { rule: undone.rule, ...back, reverses: undone.number, day: undone.day };
  addPress(ledger, "reversal", studentId, press, when, facts);
}

function addPress(
  ledger: Ledger,
  source: LedgerSource,
  studentId: string,
  sourceKey: string,
  { wallMs, offsetMinutes }: WallMoment,
  facts: {
    readonly rule: LedgerRule;
    readonly amount: number;
    readonly forgiven: number;
    readonly reverses?: number;
    readonly day?: string;
  },
): void {
  if (ledger.find(source, sourceKey, studentId) !== null) return;
  ledger.add({
    studentId,
    source,
    sourceKey,
    revision: 1,
    day: localDay(wallMs, offsetMinutes),
    wallMs,
    offsetMinutes,
    ...facts,
  });
}
