import { openStore } from "../../../electron/store/store.ts";

/** A cue that is settled: its means, or why it reached nobody; and when it came or was due, by the clock on the wall. */
export interface SettledCue {
  readonly cue: number;
  readonly how: string;
  readonly atMs: number;
}

/** So long after its moment a cue of which nobody reported is written off, in ms. */
const writtenOffMs = 3_000;

/** What the log of the newest session in a data folder, whose app has ended, has of each cue that is settled. */
export function settledCues(folder: string): SettledCue[] {
  const store = openStore({ folder, now: Date.now });
  try {
    const [session] = store.sessions.list(null, 1);
    return store.log.read(session?.id ?? "", 0).flatMap(({ body, stamp }): SettledCue[] => {
      if (body.kind === "delivered") return [{ cue: body.cue, how: body.by, atMs: stamp.wallMs }];
      if (body.kind !== "undelivered") return [];
      const since = body.reason === "no-report" ? writtenOffMs : 0;
      return [{ cue: body.cue, how: body.reason, atMs: stamp.wallMs - since }];
    });
  } finally {
    store.close();
  }
}
