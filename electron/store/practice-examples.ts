import { asc, eq } from "drizzle-orm";
import type { PracticeExamples } from "../../shared/roster/practice-examples.ts";
import type { Connection } from "./connection.ts";
import { inTransaction } from "./file/in-transaction.ts";
import { practiceExample } from "./tables.ts";

/** What working looks like and what it does not, for practising with a group. */
export function practiceExampleRepository({ bare, typed }: Connection) {
  return {
    /** In the teacher's order; both lists empty until some were saved. */
    get(groupId: string): PracticeExamples {
      const rows = typed
        .select()
        .from(practiceExample)
        .where(eq(practiceExample.groupId, groupId))
        .orderBy(asc(practiceExample.position))
        .all();
      const wordsOf = (isWorking: boolean) =>
        rows.filter((row) => row.isWorking === isWorking).map(({ words }) => words);
      return { working: wordsOf(true), notWorking: wordsOf(false) };
    },

    /** Puts these in the place of all that were there. */
    save(groupId: string, { working, notWorking }: PracticeExamples): void {
      inTransaction(bare, () => {
        typed.delete(practiceExample).where(eq(practiceExample.groupId, groupId)).run();
        const add = (isWorking: boolean) => (words: string, index: number) => {
          const row = { groupId, isWorking, position: index + 1, words };
          typed.insert(practiceExample).values(row).run();
        };
        working.forEach(add(true));
        notWorking.forEach(add(false));
      });
    },
  };
}
export type PracticeExampleRepository = ReturnType<typeof practiceExampleRepository>;
