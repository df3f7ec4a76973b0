import { type SessionTally, tallyOf } from "../../shared/record/tally.ts";
import { sessionFold } from "../../shared/session/fold.ts";
import { outlineOf, type SessionOutline } from "../../shared/session/outline.ts";
import type { Connection } from "./connection.ts";
import { type EventRow, eventColumns, readEvents, type StudentIds } from "./event-row.ts";

/** What the log of one session comes to. */
export interface SessionReading {
  readonly outline: SessionOutline;
  /** Null where an entry cannot be read: such a session is not counted at all, rather than wrongly. */
  readonly tally: SessionTally | null;
  /** How many entries cannot be read and are not passed over. */
  readonly damaged: number;
}

/** A session as its log names it. */
export interface LogPlace {
  readonly number: number;
  /** Number of its newest entry; null when there is none. */
  readonly lastSeq: number | null;
}

/** Reads logs, each once and again only when it has grown. Kept for a run of the app. */
export type SessionReadings = ReturnType<typeof sessionReadings>;

export function sessionReadings(open: Connection, students: StudentIds) {
  const known = new Map<
    number,
    { readonly lastSeq: number | null; readonly reading: SessionReading }
  >();
  const rows = open.bare
    .prepare<[number], EventRow>(
      `SELECT ${eventColumns} FROM session_event WHERE session_number = ? ORDER BY seq`,
    )
    .raw();

  return {
    isKnown: ({ number, lastSeq }: LogPlace): boolean => known.get(number)?.lastSeq === lastSeq,

    of(places: readonly LogPlace[]): SessionReading[] {
      return places.map(({ number, lastSeq }) => {
        const before = known.get(number);
        if (before !== undefined && before.lastSeq === lastSeq) return before.reading;
        const reading = read(rows.all(number), students);
        known.set(number, { lastSeq, reading });
        return reading;
      });
    },

    /** After something was taken out of the log: what was read may name who is gone. */
    forget(): void {
      known.clear();
    },
  };
}

function read(rows: readonly EventRow[], students: StudentIds): SessionReading {
  const { events, bad } = readEvents(rows, students);
  const fold = sessionFold();
  const passedOver = new Set<number>();
  for (const event of events) {
    fold.take(event);
    if (event.body.kind === "passed-over") passedOver.add(event.body.seq);
  }
  const state = fold.state();
  const damaged = bad.filter((seq) => !passedOver.has(seq)).length;
  return { outline: outlineOf(state), tally: damaged > 0 ? null : tallyOf(state), damaged };
}
