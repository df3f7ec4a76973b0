import { useMutation, useQuery, useQueryClient } from "@tanstack/react-query";
import { useCallback, useMemo } from "react";
import type { Settings, Topic } from "../../shared/api/app.ts";
import type { SessionListItem } from "../../shared/api/sessions.ts";
import { schoolWeek } from "../../shared/calendar/school-days.ts";
import type { GroupPeriod } from "../../shared/calendar/timetable.ts";
import type { Alternation } from "../../shared/phase/alternation.ts";
import { planInUse, sessionsForPlanInUse } from "../../shared/session/plan-in-use.ts";
import type { Api } from "./api.ts";
import { useConnection } from "./context.tsx";

/**
 * Asks once and again whenever the topic changes.
 *
 * @param topic what the answer depends on; named by the desktop side's stream of changes
 * @param key what else tells this question from others, such as an id
 */
export function useAsk<Answer>(
  topic: Topic,
  key: readonly (string | number | boolean | null)[],
  ask: (api: Api) => Promise<Answer>,
) {
  const { api } = useConnection();
  return useQuery({ queryKey: [topic, ...key], queryFn: () => ask(api) });
}

/** What comes of telling the desktop side something. */
export interface After<Answer> {
  readonly onSuccess?: (answer: Answer) => void;
  readonly onError?: (error: unknown) => void;
  readonly onSettled?: () => void;
}

/**
 * Tells the desktop side to do something; the stream of changes then refreshes what it touched. That may come
 * first and take away what was pressed, a form that made the first group for instance: what is to follow a
 * press follows it all the same, and after each of several presses.
 */
export function useTell<Answer, Input = void>(tell: (api: Api, input: Input) => Promise<Answer>) {
  const { api } = useConnection();
  const told = useMutation({ mutationFn: (input: Input) => tell(api, input) });
  const { mutateAsync } = told;
  const mutate = useCallback(
    (input: Input, { onSuccess, onError, onSettled }: After<Answer> = {}): void => {
      // A refusal is kept in `error`, for the page to word.
      const refused = onError ?? (() => undefined);
      void mutateAsync(input).then(onSuccess, refused).then(onSettled);
    },
    [mutateAsync],
  );
  return { ...told, mutate };
}

export const useSettings = (): Settings | undefined =>
  useAsk("settings", ["settings"], (api) => api.app.settings()).data;

/**
 * Saves some of the settings. What was kept is shown from the answer on: until the stream of changes had them
 * asked for again, a choice would fall back to what stood before.
 */
export function useSaveSettings() {
  const { api } = useConnection();
  const client = useQueryClient();
  return useMutation({
    mutationFn: (part: Partial<Settings>) => api.app.saveSettings(part),
    onSuccess: async (kept) => {
      const queryKey = ["settings", "settings"] satisfies [Topic, string];
      // An answer on its way may be of before.
      await client.cancelQueries({ queryKey });
      client.setQueryData(queryKey, kept);
    },
  });
}

export const useAppInfo = () => useAsk("groups", ["info"], (api) => api.app.info()).data;

/** How the data is: backups and what may be wrong with it; undefined until known. */
export const useCare = () => useAsk("care", ["state"], (api) => api.care.state()).data;

/** The kept backups, compared anew with the data whenever they are looked at. */
export function useBackups() {
  const { api } = useConnection();
  return useQuery({
    queryKey: ["care", "backups"] satisfies [Topic, string],
    queryFn: () => api.care.backups(),
    refetchOnMount: "always",
  });
}

export const useGroups = (archived = false) =>
  useAsk("groups", ["list", archived], (api) => api.groups.list({ archived }));

/** A group by its id, archived or not; undefined until known, and for an id that is no group's. */
export function useGroup(groupId: string) {
  const shown = useGroups().data;
  const archived = useGroups(true).data;
  return [...(shown ?? []), ...(archived ?? [])].find(({ id }) => id === groupId);
}

export const useStudents = (groupId: string, archived = false) =>
  useAsk("students", [groupId, archived], (api) => api.students.list({ groupId, archived }));

export const usePlans = (groupId: string) =>
  useAsk("plans", [groupId], (api) => api.plans.list({ groupId }));

/** The group's plans, and first among them for a start: the one under which it last sat. */
export function usePlanChoice(groupId: string, chosenId: string | null) {
  const plans = usePlans(groupId).data;
  const sessions = useSessions(groupId, sessionsForPlanInUse).data;
  if (plans === undefined || sessions === undefined) return { plans: [], plan: undefined };
  const plan = plans.find(({ id }) => id === chosenId) ?? planInUse(plans, sessions);
  return { plans, plan: plan ?? undefined };
}

/** The school's days off, by first day. */
export const useDaysOff = () => useAsk("program", ["days-off"], (api) => api.calendar.daysOff());

/** So often is asked whether another day has begun; the desktop side tells of no midnight. */
const dayLookMs = 600_000;

/** Today's day, and on which weekdays each group sits. */
export function useTimetable() {
  const { api } = useConnection();
  return useQuery({
    queryKey: ["program", "timetable"] satisfies [Topic, string],
    queryFn: () => api.calendar.timetable(),
    refetchInterval: dayLookMs,
    refetchOnMount: "always",
  });
}

/** The weekdays on which one group sits; Monday to Friday until they are known. */
export const useWeekdays = (groupId: string): readonly number[] =>
  useTimetable().data?.groups.find((group) => group.groupId === groupId)?.weekdays ?? schoolWeek;

const noPeriods: readonly GroupPeriod[] = [];

/** The stretches of a group's day, in the order of its list; none until they are known. */
export function usePeriods(groupId: string): readonly GroupPeriod[] {
  const periods = useTimetable().data?.periods ?? noPeriods;
  return periods.filter((period) => period.groupId === groupId);
}

/** The school's terms, by first day. */
export const useTerms = () => useAsk("program", ["terms"], (api) => api.calendar.terms());

/** What waited on Today and was put aside; undefined until known. */
export function useAsides(): ReadonlySet<string> | undefined {
  const { data } = useAsk("program", ["asides"], (api) => api.calendar.asides());
  return useMemo(() => (data === undefined ? undefined : new Set(data)), [data]);
}

/** Puts something aside that waits, or takes it back. */
export function usePutAside(): (what: string, aside: boolean) => void {
  const put = useTell((api, input: { what: string; aside: boolean }) =>
    api.calendar.putAside(input),
  );
  return (what, aside) => put.mutate({ what, aside });
}

/** The running session, or one that an earlier run left open; null when there is none. */
export const useOpenSession = (): SessionListItem | null =>
  useAsk("sessions", ["open"], (api) => api.sessions.open()).data ?? null;

const noAlternations: readonly Alternation[] = [];

/** Pairs of conditions that take turns in a group, oldest first; none until they, or the group, are known. */
export const useAlternations = (groupId: string | null): readonly Alternation[] =>
  useAsk("sessions", ["alternations", groupId], async (api) =>
    groupId === null ? noAlternations : api.alternations.list({ groupId }),
  ).data ?? noAlternations;

export const useSessions = (groupId: string | null, limit: number) =>
  useAsk("sessions", ["list", groupId, limit], (api) => api.sessions.list({ groupId, limit }));
