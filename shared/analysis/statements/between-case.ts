import type { Source } from "../../record/session-count.ts";
import {
  type BetweenCaseEffect,
  betweenCaseEffect,
} from "../../statistics/between-case/between-case-effect.ts";
import type { CaseSeries } from "../../statistics/between-case/case-algebra.ts";
import { notEnough, type Result } from "../../statistics/result.ts";
import { phasePoints } from "../phases/points-standard.ts";
import type { ClassMember } from "./class-reading.ts";
import { ratePoints } from "./points.ts";
import { sessionsBy } from "./record-reading.ts";

/** Fewer students than this say little about how far students lie apart; three is the standard's number too. */
const fewestStudents = 3;

export interface BetweenCaseStatement extends BetweenCaseEffect {
  /** Who recorded: the source in which more students have both kinds of phase. */
  readonly source: Source;
  readonly students: number;
  readonly sessions: number;
}

/**
 * The program's effect in standard deviations between students, which trials with two groups report too:
 * baseline sessions against those of the program proper, over students with three of each by one source.
 *
 * Source: see `betweenCaseEffect`; three students as in What Works Clearinghouse's Handbook 5.0 (2022), from
 * memory.
 *
 * Example: betweenCaseStatement([]) // not-enough, "few-students"
 */
export function betweenCaseStatement(
  members: readonly ClassMember[],
): Result<BetweenCaseStatement> {
  const by = (source: Source) => ({
    source,
    cases: members.flatMap((member) => caseOf(member, source)),
  });
  const [observed, own] = [by("observer"), by("self")];
  const { source, cases } = observed.cases.length > own.cases.length ? observed : own;
  if (cases.length < fewestStudents) {
    return notEnough("few-students", cases.length, fewestStudents);
  }
  const effect = betweenCaseEffect(cases);
  if (effect === null) return notEnough("no-spread", 0, 1);
  const sessions = cases.reduce((sum, { values }) => sum + values.length, 0);
  return { kind: "enough", source, students: cases.length, sessions, ...effect };
}

function caseOf({ phases }: ClassMember, source: Source): CaseSeries[] {
  const held = phases
    .filter(({ kind }) => kind === "baseline" || kind === "intervention")
    .flatMap(({ kind, sessions }) =>
      sessionsBy(sessions, source).map((session) => ({ session, treated: kind !== "baseline" })),
    )
    .sort((one, other) => one.session.startedAt - other.session.startedAt)
    .flatMap(({ session, treated }) =>
      ratePoints([session]).map(({ on, marks }) => ({ value: on / marks, treated })),
    );
  const under = held.filter(({ treated }) => treated).length;
  if (Math.min(under, held.length - under) < phasePoints.fewest) return [];
  return [
    {
      values: held.map(({ value }) => value),
      treated: held.map(({ treated }) => treated),
    },
  ];
}
