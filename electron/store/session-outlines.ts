import { outlineOf, type SessionOutline } from "../../shared/session/outline.ts";
import { emptySession } from "../../shared/session/state.ts";
import type { Connection } from "./connection.ts";
import type { LogPlace, SessionReadings } from "./session-readings.ts";

/** What lists say of sessions. */
export function outlineRepository({ bare }: Connection, readings: SessionReadings) {
  const place = bare.prepare<[string], LogPlace>(
    `SELECT number, (SELECT max(seq) FROM session_event WHERE session_number = number) AS lastSeq
     FROM session WHERE id = ?`,
  );
  return {
    /** The outline of a session; of one that is damaged, what can be read of it. */
    of(sessionId: string): SessionOutline {
      const at = place.get(sessionId);
      const [reading] = at === undefined ? [] : readings.of([at]);
      return reading?.outline ?? outlineOf(emptySession);
    },
  };
}
export type Outlines = ReturnType<typeof outlineRepository>;
