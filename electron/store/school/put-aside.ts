import type Database from "better-sqlite3";

/** So long is remembered what was put aside, in ms: nothing waits longer. */
const rememberedMs = 120 * 24 * 60 * 60 * 1000;

/** What waited on Today and was put aside, by its name. */
export function putAsideRepository(bare: Database.Database) {
  const all = bare.prepare<[], string>("SELECT what FROM put_aside ORDER BY at_ms, what").pluck();
  const insert = bare.prepare<[string, number]>(
    "INSERT INTO put_aside (what, at_ms) VALUES (?, ?) ON CONFLICT (what) DO UPDATE SET at_ms = excluded.at_ms",
  );
  const forget = bare.prepare<[number]>("DELETE FROM put_aside WHERE at_ms < ?");
  const remove = bare.prepare<[string]>("DELETE FROM put_aside WHERE what = ?");
  return {
    list: (): string[] => all.all(),
    put(what: string, nowMs: number): void {
      forget.run(Math.round(nowMs - rememberedMs));
      insert.run(what, Math.round(nowMs));
    },
    takeBack(what: string): void {
      remove.run(what);
    },
  };
}
export type PutAside = ReturnType<typeof putAsideRepository>;
