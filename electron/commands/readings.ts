import type { PhaseSessions, PhaseSpan } from "../../shared/analysis/phases/phase-series.ts";
import { addCounts, marked, responseRate } from "../../shared/analysis/rate.ts";
import { recentOf } from "../../shared/analysis/recent.ts";
import { type ClassMember, readClass } from "../../shared/analysis/statements/class-reading.ts";
import {
  readPhases,
  readPresent,
  readRates,
} from "../../shared/analysis/statements/record-reading.ts";
import { flagsOf } from "../../shared/reading/flags.ts";
import type { SessionCount } from "../../shared/record/session-count.ts";

/** What may be said of one student in a sentence, and what is pointed out; a file has no spot checks. */
export function studentReading(
  sessions: readonly SessionCount[],
  phases: readonly PhaseSessions[],
) {
  const present = readPresent(presentSpan(phases), sessions);
  const { fall: _fall, ...said } = present;
  const own = sessions.filter(({ source }) => source === present.source);
  const flags = flagsOf(
    {
      sessionsWithMarks: own.filter((session) => marked(session) > 0).length,
      recentResponse: responseRate(addCounts(recentOf(sessions, present.source))),
    },
    present,
    null,
  );
  return {
    reading: {
      ...said,
      phases: readPhases(phases),
      ...readRates(sessions, phases, present.source),
    },
    flags,
  };
}

/** What may be said of all students together, each measured against their own record. */
export const groupReading = (
  members: readonly ClassMember[],
  phases: readonly PhaseSessions[],
  together: readonly SessionCount[],
) => readClass(members, phases, together, presentSpan(phases));

/** The last phase that has a session, and the day it began; a file has no other "today". */
function presentSpan(phases: readonly PhaseSessions[]): PhaseSpan | null {
  const last = phases.findLast(({ sessions }) => sessions.length > 0);
  const first = last?.sessions[0];
  if (last === undefined || first === undefined) return null;
  return { kind: last.kind, label: last.label, startsOn: first.day };
}
