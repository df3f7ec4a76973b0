import { eq } from "drizzle-orm";
import { type Program, programSchema } from "../../shared/roster/program.ts";
import type { Connection } from "./connection.ts";
import { storedJson } from "./file/stored-json.ts";
import { program } from "./tables.ts";

/** Where the program of each group stands. */
export function programRepository({ typed }: Connection) {
  return {
    /** Null when none was ever saved for the group. */
    get(groupId: string): Program | null {
      const row = typed.select().from(program).where(eq(program.groupId, groupId)).get();
      if (row === undefined) return null;
      const { stepMeans, ...facts } = row;
      return programSchema.parse({
        ...facts,
        stepMeansSeconds: storedJson(programSchema.shape.stepMeansSeconds, stepMeans),
      });
    },

    save({ stepMeansSeconds, ...facts }: Program): void {
      const row = { ...facts, stepMeans: JSON.stringify(stepMeansSeconds) };
      typed
        .insert(program)
        .values(row)
        .onConflictDoUpdate({ target: program.groupId, set: row })
        .run();
    },
  };
}
export type Programs = ReturnType<typeof programRepository>;
