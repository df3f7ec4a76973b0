import { decide, type SessionCommand } from "../../../shared/session/decide.ts";
import type { SessionEvent, TimedBody } from "../../../shared/session/event.ts";
import { emptySession, type SessionState } from "../../../shared/session/state.ts";
import type { SessionLog, UnnumberedStamp } from "../../store/session-log.ts";
import type { WallClock } from "../base/wall-clock.ts";
import { sessionRefusal } from "./session-refusals.ts";

// The one door to the session log: nothing else on the desktop side appends to it, which a test holds.

type Log = Pick<SessionLog, "appendAll">;

interface Now {
  readonly stamp: UnnumberedStamp;
  /** Time since the session ended, in ms; zero while it runs. */
  readonly sinceEndMs: number;
}

/**
 * Asks the session's rules and writes what they allow, all or nothing.
 *
 * @throws Refusal when they forbid it
 */
export function obeyed(
  log: Log,
  sessionId: string,
  state: SessionState,
  command: SessionCommand,
  { stamp, sinceEndMs }: Now,
): SessionEvent[] {
  const decision = decide(state, command, { sessionMs: stamp.atMs, sinceEndMs });
  if (!decision.ok) throw sessionRefusal(decision.refusal);
  return decision.events.length === 0 ? [] : log.appendAll(sessionId, decision.events, stamp);
}

/**
 * Says in the log that entries which cannot be read are passed over. The session's rules are not asked what
 * its state is: without these entries nobody knows it yet.
 *
 * @returns how many entries are passed over now and were not before
 */
export function passOver(
  log: Log & Pick<SessionLog, "unreadable" | "lastMoment">,
  sessionId: string,
  clock: WallClock,
): number {
  const seqs = log.unreadable(sessionId);
  const atMs = log.lastMoment(sessionId)?.atMs ?? 0;
  const stamp = { atMs, wallMs: clock.wallMs(), offsetMinutes: clock.offsetMinutes() };
  obeyed(log, sessionId, emptySession, { kind: "pass-over", seqs }, { stamp, sinceEndMs: 0 });
  return seqs.length;
}

/**
 * Writes a session that was held elsewhere, earlier or never, whole: each event at its own moment after
 * the start.
 *
 * @param start ms since 1970 UTC, and minutes that local time was ahead of UTC
 * @throws Refusal when something is in the log already
 */
export function bringIn(
  log: Log & Pick<SessionLog, "read">,
  sessionId: string,
  events: readonly TimedBody[],
  { startedMs, offsetMinutes }: { readonly startedMs: number; readonly offsetMinutes: number },
): void {
  const state = { ...emptySession, lastSeq: log.read(sessionId, 0).length };
  const bodies = events.map(({ body }) => body);
  const now = { sessionMs: 0, sinceEndMs: 0 };
  const decision = decide(state, { kind: "bring-in", events: bodies }, now);
  if (!decision.ok) throw sessionRefusal(decision.refusal);
  // Events of one moment go in together: a file of a year has many thousands.
  for (const together of runsOf(events)) {
    const atMs = together[0]?.atMs ?? 0;
    const said = together.map(({ body }) => body);
    log.appendAll(sessionId, said, { atMs, wallMs: startedMs + atMs, offsetMinutes });
  }
}

function runsOf(events: readonly TimedBody[]): TimedBody[][] {
  const runs: TimedBody[][] = [];
  for (const event of events) {
    const last = runs.at(-1);
    if (last?.[0]?.atMs === event.atMs) last.push(event);
    else runs.push([event]);
  }
  return runs;
}
