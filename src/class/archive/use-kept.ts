import { useAsk } from "../../api/queries.ts";

/** The groups that are kept until a day, by id, and whether it has come. */
export function useKept() {
  const kept = useAsk("groups", ["kept"], (api) => api.groups.kept()).data ?? [];
  return new Map(kept.map(({ id, until, hasCome }) => [id, { until, hasCome }] as const));
}
