import type Database from "better-sqlite3";
import type { KeptChime } from "../../../shared/api/chimes.ts";

/**
 * Chimes that the teacher brought. They lie in the data file, so that every backup has them.
 *
 * @param newId makes the id of a new one from its moment
 */
export function ownChimeRepository(bare: Database.Database, newId: (nowMs: number) => string) {
  const all = bare.prepare<[], KeptChime>(
    `SELECT id, name, (SELECT count(*) FROM plan
       WHERE json_extract(settings, '$.chime') = 'own:' || own_chime.id) AS plans
     FROM own_chime ORDER BY made_ms, id`,
  );
  const soundOf = bare
    .prepare<[string], Uint8Array>("SELECT sound FROM own_chime WHERE id = ?")
    .pluck();
  const insert = bare.prepare<[string, string, number, Uint8Array]>(
    "INSERT INTO own_chime (id, name, made_ms, sound) VALUES (?, ?, ?, ?)",
  );
  const remove = bare.prepare<[string]>("DELETE FROM own_chime WHERE id = ?");
  const toBell = bare.prepare<[string]>(
    `UPDATE plan SET settings = json_set(settings, '$.chime', 'bell')
     WHERE json_extract(settings, '$.chime') = 'own:' || ?`,
  );

  return {
    /** Oldest first. */
    list: (): KeptChime[] => all.all(),

    /** The WAV file, or null. */
    sound: (id: string): Uint8Array | null => soundOf.get(id) ?? null,

    add(name: string, sound: Uint8Array, nowMs: number): KeptChime {
      const id = newId(nowMs);
      insert.run(id, name, Math.round(nowMs), sound);
      return { id, name, plans: 0 };
    },

    /** Removes it; plans that have it get the bell. Returns how many, or null when there is no such chime. */
    remove(id: string): number | null {
      return remove.run(id).changes === 0 ? null : toBell.run(id).changes;
    },
  };
}
export type OwnChimes = ReturnType<typeof ownChimeRepository>;
