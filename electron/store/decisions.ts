import { desc, eq } from "drizzle-orm";
import { type AdviceDecision, adviceDecisionSchema } from "../../shared/api/advice.ts";
import type { Connection } from "./connection.ts";
import { newId } from "./new-id.ts";
import { adviceDecision } from "./tables.ts";

/** What the teacher did with each piece of advice. Decisions are added, never changed. */
export function decisionRepository({ typed }: Connection) {
  return {
    /** Newest first; those about single students are among them. */
    list(groupId: string): AdviceDecision[] {
      return typed
        .select()
        .from(adviceDecision)
        .where(eq(adviceDecision.groupId, groupId))
        .orderBy(desc(adviceDecision.decidedMs), desc(adviceDecision.id))
        .all()
        .map((row) => adviceDecisionSchema.parse({ ...row, advice: nameToday(row.advice) }));
    },

    add(facts: Omit<AdviceDecision, "id">): AdviceDecision {
      const decidedMs = Math.round(facts.decidedMs);
      const made = { ...facts, id: newId(decidedMs), decidedMs };
      typed.insert(adviceDecision).values(made).run();
      return made;
    },
  };
}

/** Decisions are kept as they were written; one kind of advice had another name until version 5. */
const nameToday = (advice: string): string => (advice === "check-honesty" ? "check-match" : advice);

export type Decisions = ReturnType<typeof decisionRepository>;
