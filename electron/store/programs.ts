import { eq } from "drizzle-orm";
import { type KeptProgram, programSchema } from "../../shared/roster/program.ts";
import type { Connection } from "./connection.ts";
import { storedJson } from "./file/stored-json.ts";
import { program } from "./tables.ts";

const keptSchema = programSchema.omit({ pointsPaid: true });

/** Where the program of each group stands. */
export function programRepository({ typed }: Connection) {
  return {
    /** Null when none was ever saved for the group. */
    get(groupId: string): KeptProgram | null {
      const row = typed.select().from(program).where(eq(program.groupId, groupId)).get();
      if (row === undefined) return null;
      const { stepMeans, pointsPaid: _unused, ...facts } = row;
      return keptSchema.parse({
        ...facts,
        stepMeansSeconds: storedJson(programSchema.shape.stepMeansSeconds, stepMeans),
      });
    },

    save({ stepMeansSeconds, ...facts }: KeptProgram): void {
      const row = { ...facts, stepMeans: JSON.stringify(stepMeansSeconds) };
      typed
        .insert(program)
        // An older version's own word, which the plans say now: the column asks for a value and is never read.
        .values({ ...row, pointsPaid: false })
        .onConflictDoUpdate({ target: program.groupId, set: row })
        .run();
    },
  };
}
export type Programs = ReturnType<typeof programRepository>;
