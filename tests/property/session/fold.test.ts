import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { selfCounts } from "../../../shared/record/counts.ts";
import { tallyOf } from "../../../shared/record/tally.ts";
import type { SessionEvent, SessionEventBody } from "../../../shared/session/event.ts";
import { sessionFold } from "../../../shared/session/fold.ts";
import { outlineOf } from "../../../shared/session/outline.ts";
import { reduce, replay } from "../../../shared/session/reduce.ts";
import { emptySession, type SessionState } from "../../../shared/session/state.ts";
import { anyLog } from "./any-log.ts";

const students = ["ada", "ben", "cleo"];
const log = anyLog(students);

describe("the fold of a log", () => {
  it("comes to the same event by event as all at once, and in any parts", () => {
    fc.assert(
      fc.property(log, fc.func(fc.boolean()), (events, looksAt) => {
        const whole = replay(events);
        let state = emptySession;
        const inParts = sessionFold();
        for (const event of events) {
          state = reduce(state, event);
          inParts.take(event);
          // Whoever looks in between makes the fold copy before it goes on.
          if (looksAt(event)) inParts.state();
        }
        expect(state).toEqual(whole);
        expect(inParts.state()).toEqual(whole);
        expect(outlineOf(state)).toEqual(outlineOf(whole));
        expect(tallyOf(state)).toEqual(tallyOf(whole));
      }),
    );
  });

  it("leaves every state that it gave as it was", () => {
    fc.assert(
      fc.property(log, (events) => {
        const fold = sessionFold();
        const given: { state: SessionState; copy: SessionState }[] = [];
        for (const event of events) {
          fold.take(event);
          const state = fold.state();
          given.push({ state, copy: structuredClone(state) });
        }
        for (const { state, copy } of given) expect(state).toEqual(copy);
        expect(emptySession).toEqual(replay([]));
      }),
      { numRuns: 40 },
    );
  });
});

// What counts, said once more as questions to the whole list of events; no source but the rules of the log.

type Numbered<Kind extends SessionEventBody["kind"]> = Extract<
  SessionEventBody,
  { readonly kind: Kind }
> & { readonly seq: number };

function all<Kind extends SessionEventBody["kind"]>(
  events: readonly SessionEvent[],
  ...kinds: readonly Kind[]
): Numbered<Kind>[] {
  return events.flatMap(({ body, stamp }) =>
    kinds.some((each) => each === body.kind) ? [{ ...body, seq: stamp.seq } as Numbered<Kind>] : [],
  );
}

function asked(events: readonly SessionEvent[], studentId: string) {
  const verdicts = all(events, "delivered", "undelivered").filter(
    (each) => each.kind === "delivered" || each.studentId === undefined,
  );
  const isUnreached = (cue: number) =>
    all(events, "undelivered").some((each) => each.studentId === studentId && each.cue === cue);
  const delivered = verdicts.filter(
    ({ kind, cue, seq }) =>
      kind === "delivered" && verdicts.find((each) => each.cue === cue)?.seq === seq,
  );
  const own = <Entry extends { readonly studentId: string }>(entries: readonly Entry[]) =>
    entries.filter((entry) => entry.studentId === studentId);
  const marks = own(all(events, "mark"));
  const lastTotal = own(all(events, "total")).at(-1);
  const isPaperAfter = marks.some(
    ({ way, seq }) => way === "paper" && seq > (lastTotal?.seq ?? Infinity),
  );
  const total = isPaperAfter ? undefined : lastTotal;
  const valueAt = (cue: number) => {
    const last = marks.findLast((mark) => mark.cue === cue);
    const gone = last?.way === "paper" && last.seq < (lastTotal?.seq ?? 0);
    return last === undefined || gone ? "none" : last.value;
  };
  const moves = own(all(events, "set-aside", "back"));
  const isAsideAt = (seq: number) => moves.findLast((move) => move.seq < seq)?.kind === "set-aside";
  const endSeq = all(events, "ended")[0]?.seq ?? Infinity;
  const lastBack = moves.findLast(({ kind }) => kind === "back")?.seq ?? 0;
  const isAway = moves.some(
    ({ kind, seq }) => kind === "set-aside" && seq > endSeq && seq > lastBack,
  );
  const values = delivered.map(({ cue, seq }) => ({
    value: valueAt(cue),
    aside: isAsideAt(seq) || isUnreached(cue),
  }));
  const on = values.filter(({ value }) => value === "on").length;
  const off = values.filter(({ value }) => value === "off").length;
  const silent = values.filter(({ value, aside }) => value === "none" && !aside).length;
  return { delivered: delivered.length, total, isAway, on, off, silent };
}

describe("the counts of a session", () => {
  it("are what the list of events says when it is asked question by question", () => {
    fc.assert(
      fc.property(log, (events) => {
        const state = replay(events);
        for (const student of students) {
          const { delivered, total, isAway, on, off, silent } = asked(events, student);
          const counts = selfCounts(state, student);
          if (total !== undefined) {
            const missing = Math.max(0, on + off + silent - total.on - total.off);
            expect(counts).toEqual({ on: total.on, off: total.off, missing });
          } else if (on + off === 0 && (isAway || (silent === 0 && delivered > 0))) {
            expect(counts).toBeNull();
          } else expect(counts).toEqual({ on, off, missing: silent });
          expect(tallyOf(state).cuesDelivered).toBe(delivered);
        }
      }),
      { numRuns: 300 },
    );
  });
});
