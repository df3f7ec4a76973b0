import { replaceEqualDeep, useQuery } from "@tanstack/react-query";
import type { Topic } from "../../shared/api/app.ts";
import type { LoggedCounts } from "../../shared/record/group-counts.ts";
import { useConnection } from "./context.tsx";

/** What a group's logs say, under a number that is another one whenever anything of it is. */
export interface NumberedCounts {
  readonly number: number;
  readonly logged: LoggedCounts;
}

let lastNumber = 0;

/** A group's counts, asked for once however many screens want them, and again when records change. */
export function useLoggedCounts(groupId: string) {
  const { api } = useConnection();
  return useQuery({
    queryKey: ["records", "counts", groupId] satisfies [Topic, ...string[]],
    queryFn: async (): Promise<NumberedCounts> => {
      const logged = await api.analysis.counts({ groupId });
      lastNumber += 1;
      return { number: lastNumber, logged };
    },
    structuralSharing: (before, now) => sameNumber(before, now),
  });
}

/** Counts that are what they were keep their number: nobody reads them anew. */
export function sameNumber(before: unknown, now: unknown): unknown {
  if (!isNumbered(before) || !isNumbered(now)) return now;
  const logged = replaceEqualDeep(before.logged, now.logged);
  return logged === before.logged ? before : { number: now.number, logged };
}

const isNumbered = (data: unknown): data is NumberedCounts =>
  typeof data === "object" && data !== null && "number" in data && "logged" in data;
