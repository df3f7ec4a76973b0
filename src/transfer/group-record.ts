import type { AdviceDecision } from "../../shared/api/advice.ts";
import type { PointsState } from "../../shared/api/points.ts";
import type { PairsState, TeamsState } from "../../shared/api/teams.ts";
import { type Alternation, conditionAt, nextTurn } from "../../shared/phase/alternation.ts";
import type { CountColumns, GroupCounts } from "../../shared/record/group-counts.ts";
import type { Program } from "../../shared/roster/program.ts";
import type { GroupRecord } from "../../shared/transfer/group-record.ts";
import type { HomePapers } from "../../shared/transfer/home-papers.ts";
import type { LedgerLine } from "../../shared/transfer/ledger-line.ts";
import { momentText } from "../../shared/transfer/moment.ts";

/** All that the app keeps about a group apart from its plans and events. */
export interface GroupParts {
  readonly counts: GroupCounts;
  readonly alternations: readonly Alternation[];
  readonly program: Program;
  readonly decisions: readonly AdviceDecision[];
  readonly ledger: readonly LedgerLine[];
  readonly points: Pick<PointsState, "privileges" | "periods">;
  readonly teams: Pick<TeamsState, "settings" | "names" | "wishes" | "rounds">;
  readonly pairs: Pick<PairsState, "lessons">;
  /** Of all students, archived ones too. */
  readonly papers: readonly HomePapers[];
}

/**
 * A group's record as the JSON file of shared/transfer/group-record.ts.
 *
 * @param exportedMs wall clock, ms since 1970 UTC
 */
export function groupRecord(
  { counts, alternations, program, decisions, ledger, points, teams, pairs, papers }: GroupParts,
  exportedMs: number,
): GroupRecord {
  const { group, students, sessions } = counts;
  const { goal, stepMeansSeconds, place, placeSince, pointsPaid } = program;
  return {
    form: "pebblechime-group-record",
    version: 6,
    exportedAt: new Date(exportedMs).toISOString(),
    group: { name: group.name, target: group.target, isSample: group.isSample },
    students: students.map(({ id, name, target, archived }) => ({ id, name, target, archived })),
    sessions: sessions.map(({ startedMs, offsetMinutes, ...session }) => ({
      id: session.id,
      kind: session.kind,
      startedAt: momentText(startedMs, offsetMinutes),
      day: session.day,
      meanSeconds: session.meanSeconds,
      subject: session.subject,
      cuesDelivered: session.cuesDelivered,
      note: session.note,
    })),
    leftOut: counts.leftOut.map(({ id, kind, startedMs, offsetMinutes, day, reason }) => ({
      id,
      kind,
      startedAt: momentText(startedMs, offsetMinutes),
      day,
      reason,
    })),
    counts: counts.counts.flatMap(({ studentId, self, observer }) => [
      ...countsFrom(counts, studentId, self, "self"),
      ...countsFrom(counts, studentId, observer, "observer"),
    ]),
    spotChecks: counts.checks.map(({ day: _day, ...check }) => check),
    observerPairs: counts.observerPairs,
    work: counts.work,
    phases: counts.phases.map(({ id: _id, groupId: _groupId, ...phase }) => phase),
    alternations: alternations.map(takenTurns),
    program: { goal, stepMeansSeconds, place, placeSince, pointsPaid },
    decisions: decisions.map(({ studentId, advice, accepted, note, day }) => ({
      studentId,
      advice,
      accepted,
      note,
      day,
    })),
    daysOff: counts.daysOff.map(({ firstDay, lastDay, label }) => ({ firstDay, lastDay, label })),
    ledger: [...ledger],
    privileges: points.privileges.map(({ id: _id, groupId: _groupId, ...each }) => each),
    periods: points.periods.map(({ id: _id, ...period }) => period),
    together: {
      settings: teams.settings,
      names: teams.names,
      wishes: teams.wishes,
      rounds: teams.rounds.map(({ id: _id, ...round }) => round),
      lessons: pairs.lessons.map(({ id: _id, ...lesson }) => lesson),
    },
    papers: papers.filter(saysAnything),
  };
}

/** The turns taken. A file must not tell anyone what the next session will be. */
function takenTurns(alternation: Alternation): GroupRecord["alternations"][number] {
  const { nameA, nameB, order, seed, times, sessions } = alternation;
  return {
    nameA,
    nameB,
    planned: order.length,
    times,
    seed: nextTurn(alternation) === null ? seed : null,
    held: sessions.flatMap(({ sessionId, place }) => {
      const condition = conditionAt(order, place);
      return condition === null ? [] : { sessionId, condition };
    }),
  };
}

const saysAnything = ({ agreed, homeCards, contracts, reviewOn, language }: HomePapers): boolean =>
  agreed.length + homeCards.length + contracts.length > 0 || reviewOn !== null || language !== null;

function countsFrom(
  { sessions }: GroupCounts,
  studentId: string,
  columns: CountColumns,
  source: "self" | "observer",
): GroupRecord["counts"] {
  return sessions.flatMap(({ id: sessionId }, at) => {
    const onTask = columns.on[at] ?? null;
    const offTask = columns.off[at] ?? null;
    const noMark = columns.missing[at] ?? null;
    if (onTask === null || offTask === null || noMark === null) return [];
    return { studentId, sessionId, source, onTask, offTask, noMark };
  });
}
