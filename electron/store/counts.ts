import type { MarkCounts } from "../../shared/record/counts.ts";
import type {
  CountColumns,
  CountedSession,
  LeftOutSession,
  LoggedCounts,
  StudentCounts,
} from "../../shared/record/group-counts.ts";
import type { SessionTally } from "../../shared/record/tally.ts";
import type { SessionKind } from "../../shared/session/event.ts";
import type { Connection } from "./connection.ts";
import { type Damage, damageFound } from "./damage.ts";
import type { StudentIds } from "./event-row.ts";
import type { SessionReadings } from "./session-readings.ts";

interface SessionRow extends Omit<CountedSession, "cuesDelivered" | "note"> {
  readonly number: number;
  readonly lastSeq: number;
}
/** A stretch of time that a student was in a group; null until now. */
interface StayRow {
  readonly number: number;
  readonly id: string;
  readonly fromMs: number;
  readonly untilMs: number | null;
}
interface CountedStudent {
  readonly id: string;
  readonly stays: readonly StayRow[];
}
interface Counted {
  readonly row: SessionRow;
  readonly tally: SessionTally;
}

/**
 * Counting marks out of the logs.
 *
 * @param damage is told of what cannot be read
 */
export function countsRepository(
  { bare }: Connection,
  students: StudentIds,
  readings: SessionReadings,
  damage: Damage = damageFound(),
) {
  const { endedSessions, groupStudents, studentStays } = statementsOf(bare);

  /** Each student once, with every stretch. */
  function together(rows: readonly StayRow[]): CountedStudent[] {
    return [...Map.groupBy(rows, ({ number }) => number)].map(([number, stays]) => ({
      id: students.of(number) ?? stays[0]?.id ?? "",
      stays,
    }));
  }

  function tallied(rows: readonly SessionRow[]): Counted[] {
    return readings.of(rows).flatMap(({ tally, damaged }, at) => {
      const row = rows[at];
      if (row === undefined) return [];
      if (tally === null) damage.found(row.id, damaged);
      return tally === null ? [] : [{ row, tally }];
    });
  }

  function countsOf(inGroup: readonly CountedStudent[], all: readonly Counted[]): LoggedCounts {
    const sessions = all.filter(({ tally }) => tally.leftOutBecause === null);
    const ids = new Set(inGroup.map(({ id }) => id));
    const ofGroup = <Entry extends { readonly studentId: string }>(
      entriesOf: (counted: Counted) => readonly Entry[],
    ): Entry[] => sessions.flatMap(entriesOf).filter(({ studentId }) => ids.has(studentId));
    return {
      sessions: sessions.map(toSession),
      leftOut: all.flatMap(toLeftOut),
      counts: inGroup.map((student) => toCounts(student, sessions)),
      checks: ofGroup(({ row, tally }) =>
        tally.checks.map((check) => ({ ...check, sessionId: row.id, day: row.day })),
      ),
      freeLooks: ofGroup(({ row, tally }) =>
        tally.freeLooks.map((look) => ({ ...look, sessionId: row.id })),
      ),
      observerPairs: ofGroup(({ row, tally }) =>
        tally.observerPairs.map((pair) => ({ ...pair, sessionId: row.id })),
      ),
      work: ofGroup(({ row, tally }) => tally.work.map((work) => ({ ...work, sessionId: row.id }))),
    };
  }

  return {
    /**
     * For each ended session of a group that counts (practice does not, nor what the teacher left out),
     * oldest first, and each of its students (archived
     * ones too): how often they recorded on task, off task, or nothing although they took part; the same
     * by the first observer; and the pairs, the finished work and the notes.
     *
     * The last mark for a cue stands, `none` takes it back, totals replace paper marks. Only delivered
     * cues count. A student's own counts are null
     * - when set aside at every delivered cue, or after the end, and no mark was made,
     * - in a baseline or probe without any mark of theirs, because nobody asked them,
     * - in a session without anything of theirs that began before they were added or after they were
     *   archived.
     * The observer's are null for students who were not watched; `missing` is looked and could not see.
     */
    ofGroup(groupId: string): LoggedCounts {
      return countsOf(
        together(groupStudents.all({ groupId })),
        tallied(endedSessions.all(groupId)),
      );
    },

    /** The same for one student, over the sessions of every group while the student was in it. */
    ofStudent(studentId: string): LoggedCounts {
      const stays = studentStays.all({ studentId });
      const own = together(stays);
      const id = own[0]?.id ?? "";
      const byGroup = Map.groupBy(stays, ({ groupId }) => groupId);
      const all = [...byGroup].flatMap(([groupId, inIt]) =>
        tallied(endedSessions.all(groupId)).filter(
          ({ row, tally }) =>
            inIt.some((stay) => isDuring(stay, row.startedMs)) ||
            tally.recorded.has(id) ||
            tally.observer.has(id),
        ),
      );
      return countsOf(
        own,
        all.toSorted((a, b) => a.row.startedMs - b.row.startedMs),
      );
    },

    /**
     * Counts up to so many sessions, of any group, that nobody has asked for yet: done bit by bit while
     * the app has nothing to do, the first question of a day is answered at once.
     *
     * @returns whether any are left
     */
    countAhead(most: number): boolean {
      const grown = endedSessions.all(null).filter((row) => !readings.isKnown(row));
      tallied(grown.slice(-most));
      return grown.length > most;
    },
  };
}
export type Counts = ReturnType<typeof countsRepository>;

function statementsOf(bare: Connection["bare"]) {
  const endedSessions = bare.prepare<[string | null], SessionRow>(
    `SELECT number, id, kind, started_ms AS startedMs, offset_minutes AS offsetMinutes, day,
       json_extract(plan, '$.meanSeconds') AS meanSeconds,
       ifnull(json_extract(plan, '$.subject'), '') AS subject,
       (SELECT max(seq) FROM session_event WHERE session_number = number) AS lastSeq
     FROM session
     WHERE group_id = ifnull(?, group_id) AND kind <> 'practice' AND json_valid(plan)
       AND EXISTS (SELECT 1 FROM session_event WHERE session_number = number AND kind = 'ended')
     ORDER BY started_ms, id`,
  );
  // Who has moved on comes last; who came back has both stretches.
  const groupStudents = bare.prepare<[{ groupId: string }], StayRow>(
    `SELECT number, id, fromMs, untilMs FROM (
       SELECT number, id, ifnull(joined_ms, created_ms) AS fromMs, archived_ms AS untilMs,
         0 AS hasLeft, position
       FROM student WHERE group_id = @groupId
       UNION ALL
       SELECT number, id, stay.from_ms, stay.until_ms, student.group_id <> @groupId, number
       FROM stay JOIN student ON number = student_number WHERE stay.group_id = @groupId
     ) ORDER BY hasLeft, position, id, fromMs`,
  );
  const studentStays = bare.prepare<[{ studentId: string }], StayRow & { groupId: string }>(
    `SELECT number, id, group_id AS groupId, ifnull(joined_ms, created_ms) AS fromMs,
       archived_ms AS untilMs
     FROM student WHERE id = @studentId
     UNION ALL
     SELECT number, id, stay.group_id, stay.from_ms, stay.until_ms
     FROM stay JOIN student ON number = student_number WHERE id = @studentId`,
  );
  return { endedSessions, groupStudents, studentStays };
}

function toSession({ row, tally }: Counted): CountedSession {
  const { number: _number, lastSeq: _lastSeq, ...facts } = row;
  return { ...facts, cuesDelivered: tally.cuesDelivered, note: tally.note };
}

function toLeftOut({ row, tally }: Counted): LeftOutSession[] {
  if (tally.leftOutBecause === null) return [];
  const { id, kind, startedMs, offsetMinutes, day } = row;
  return [{ id, kind, startedMs, offsetMinutes, day, reason: tally.leftOutBecause }];
}

function toCounts(student: CountedStudent, sessions: readonly Counted[]): StudentCounts {
  return {
    studentId: student.id,
    self: toColumns(sessions.map((counted) => selfOf(student, counted))),
    observer: toColumns(sessions.map(({ tally }) => tally.observer.get(student.id) ?? null)),
  };
}

function selfOf(student: CountedStudent, { row, tally }: Counted): MarkCounts | null {
  if (!asksStudents(row.kind) && !tally.recorded.has(student.id)) return null;
  const known = tally.self.get(student.id);
  if (known !== undefined) return known;
  const belonged = student.stays.some((stay) => isDuring(stay, row.startedMs));
  return belonged ? tally.unsaid : null;
}

const isDuring = ({ fromMs, untilMs }: StayRow, startedMs: number): boolean =>
  fromMs <= startedMs && (untilMs ?? Infinity) > startedMs;

const asksStudents = (kind: SessionKind): boolean => kind === "seatwork";

function toColumns(counts: readonly (MarkCounts | null)[]): CountColumns {
  return {
    on: counts.map((count) => count?.on ?? null),
    off: counts.map((count) => count?.off ?? null),
    missing: counts.map((count) => count?.missing ?? null),
  };
}
