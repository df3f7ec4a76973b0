import { useMemo, useRef } from "react";
import type { PointsState } from "../../../shared/api/points.ts";
import type { EarningRules } from "../../../shared/plan/earning.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import type { PricedStudent, Prices } from "../../../shared/points/planner.ts";
import { recordersOf, sessionsADay } from "../../../shared/points/recorders.ts";
import { usualRules, usualTimes } from "../../../shared/points/truth.ts";
import { expectedCues } from "../../../shared/schedule/kept-counts.ts";
import { useLoggedCounts } from "../../api/logged-counts.ts";
import { useAsk, useSettings, useStudents } from "../../api/queries.ts";
import { useComputedPrices } from "../../compute/use-computed.ts";

/** A group's points; undefined until known. */
export const usePoints = (groupId: string): PointsState | undefined =>
  useAsk("points", ["state", groupId], (api) => api.points.state({ groupId })).data;

/** Whether anything of points is shown to a group: a plan of it earns, or what is left is being spent. */
export const usePointsShown = (groupId: string): boolean => usePoints(groupId)?.on ?? false;

/** Whether this school uses points at all. */
export const usePointsAllowed = (): boolean => useSettings()?.points ?? false;

/** What a plan's sessions pay now: the usual rule's worth of a match follows from the checks. */
export function rulesNow(
  { earning }: Pick<PlanSettings, "earning">,
  checkedShare: number,
): EarningRules | null {
  if (earning.kind === "none") return null;
  return earning.kind === "usual"
    ? usualRules(checkedShare, usualTimes(earning.rules))
    : earning.rules;
}

/** Beyond so many cues a session the exact sums would keep the page waiting. */
const mostCuesPriced = 120;

export interface PriceOutlook {
  readonly prices: Prices;
  /** Place of the student with the lowest income of a day. */
  readonly weakest: number;
  readonly sessions: number;
  /** Whether the weakest student's figures are the group's, for want of sessions. */
  readonly borrowed: boolean;
  /** Students with too few sessions, for whom the group's lower quartile stands. */
  readonly borrowing: number;
}

/** Sessions of a day, as they were lately; 1 until known. */
export function useSessionsADay(groupId: string): number {
  const counts = useLoggedCounts(groupId).data?.logged;
  return useMemo(() => (counts === undefined ? 1 : sessionsADay(counts)), [counts]);
}

/** What a plan would pay the students of a group, and the prices that fit; null until known. */
export function usePrices(
  groupId: string,
  settings: PlanSettings,
  points: PointsState | undefined,
): PriceOutlook | null {
  const counts = useLoggedCounts(groupId).data?.logged;
  const members = useStudents(groupId).data;
  const asked = useMemo(() => {
    if (counts === undefined || points === undefined) return null;
    if (members === undefined || members.length === 0) return null;
    const rules = rulesNow(settings, points.checkedShare);
    if (rules === null || expectedCues(settings) > mostCuesPriced) return null;
    const group = { ...counts, students: members };
    const { students, sessions } = recordersOf(group, points.checkedShare);
    const priced = students.map(({ studentId, recorder }): PricedStudent => {
      const own = points.ownGoals.find((each) => each.studentId === studentId);
      const given = points.givenADay.find((each) => each.studentId === studentId);
      const ownGoal = own === undefined ? {} : { ownGoal: own.share };
      return { ...recorder, ...ownGoal, givenADay: given?.points ?? 0 };
    });
    const { exchanges } = points;
    const common = { plan: settings, rules, students: priced, sessions, exchanges };
    return { students, sessions, inputs: { ...common, givenADay: 0 } };
  }, [counts, members, points, settings]);
  // Sums over every way a session can go take some tenths of a second for a class.
  const prices = useComputedPrices(asked?.inputs ?? null);
  const outlook = useMemo(() => {
    if (asked === null || prices === null) return null;
    const { students, sessions } = asked;
    const means = prices.students.map(({ day }) => day.mean);
    const weakest = means.indexOf(Math.min(...means));
    const borrowing = students.filter(({ own }) => !own).length;
    const borrowed = !(students[weakest]?.own ?? true);
    return { prices, weakest, sessions, borrowed, borrowing };
  }, [asked, prices]);
  // While a plan is changed, its last figures stand until the new ones are there: nothing jumps.
  const last = useRef<{ groupId: string; outlook: PriceOutlook } | null>(null);
  if (outlook !== null) last.current = { groupId, outlook };
  if (asked === null || last.current?.groupId !== groupId) return outlook;
  return outlook ?? last.current.outlook;
}
