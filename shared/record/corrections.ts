import type { MarkValue, MarkWay, SessionEvent } from "../session/event.ts";
import { reduce } from "../session/reduce.ts";
import { deliveredCuesOf, emptySession, type SessionState } from "../session/state.ts";
import { boxOfCue } from "./boxes.ts";

/** One thing a card said at some time; `box` counts from 1. */
export type CardEntry =
  | {
      readonly kind: "box";
      readonly box: number;
      readonly value: MarkValue;
      readonly way: MarkWay;
      readonly late: boolean;
    }
  | { readonly kind: "totals"; readonly on: number; readonly off: number; readonly way: MarkWay };

/** What was replaced by what, and when. */
export interface Correction {
  readonly was: CardEntry;
  readonly is: CardEntry;
  /** Wall clock, ms since 1970 UTC, and minutes that local time was ahead of it. */
  readonly wallMs: number;
  readonly offsetMinutes: number;
}

/**
 * What was corrected on one student's card, oldest first: exactly the replacements that
 * `SessionState.corrections` counts. A first mark in an empty box is no correction; totals that take
 * the place of a card correct each of its marks.
 *
 * @param planned how many cues the session's schedule has, which numbers the boxes past them
 */
export function correctionsOf(
  events: Iterable<SessionEvent>,
  studentId: string,
  planned: number,
): Correction[] {
  let state = emptySession;
  const found: (Omit<Correction, "was" | "is"> & { was: Raw; is: Raw })[] = [];
  for (const event of events) {
    const { body, stamp } = event;
    const { wallMs, offsetMinutes } = stamp;
    const isOurs = (body.kind === "mark" || body.kind === "total") && body.studentId === studentId;
    if (isOurs && stamp.seq > state.lastSeq) {
      const is = body;
      for (const was of replacedBy(state, body)) found.push({ was, is, wallMs, offsetMinutes });
    }
    state = reduce(state, event);
  }
  const delivered = deliveredCuesOf(state, studentId);
  const entry = (raw: Raw): CardEntry => {
    if (raw.kind === "total") return { kind: "totals", on: raw.on, off: raw.off, way: raw.way };
    const { cue, value, way, late } = raw;
    return { kind: "box", box: boxOfCue(cue, delivered, planned), value, way, late };
  };
  return found.map(({ was, is, ...when }) => ({ was: entry(was), is: entry(is), ...when }));
}

/** A mark or total as the log has it, under its cue. */
type Raw =
  | { kind: "mark"; cue: number; value: MarkValue; way: MarkWay; late: boolean }
  | { kind: "total"; on: number; off: number; way: MarkWay };

type Said = Extract<SessionEvent["body"], { readonly kind: "mark" | "total" }>;

/** What this mark or total takes the place of; as the reducer counts it. */
function replacedBy(state: SessionState, said: Said): Raw[] {
  const marks = state.marks.get(said.studentId) ?? new Map();
  const total = state.totals.get(said.studentId);
  const oldTotal: Raw[] = total === undefined ? [] : [{ kind: "total", ...total }];
  if (said.kind === "total") {
    const onPaper = [...marks].flatMap(([cue, mark]): Raw[] =>
      mark.way === "paper" && mark.value !== "none" ? [{ kind: "mark", cue, ...mark }] : [],
    );
    return [...onPaper, ...oldTotal];
  }
  const mark = marks.get(said.cue);
  const replaces = mark !== undefined && mark.value !== "none" && mark.value !== said.value;
  const oldMark: Raw[] = replaces ? [{ kind: "mark", cue: said.cue, ...mark }] : [];
  return said.way === "paper" ? [...oldMark, ...oldTotal] : oldMark;
}
