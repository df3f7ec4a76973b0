import type { MarkCounts } from "../../shared/record/counts.ts";
import type {
  CheckPair,
  CountColumns,
  CountedSession,
  GroupCounts,
  LeftOutSession,
  StudentCounts,
} from "../../shared/record/group-counts.ts";
import type { SessionKind } from "../../shared/session/event.ts";
import type { Connection } from "./connection.ts";
import {
  type OtherEvent,
  type PackedMark,
  type SessionTally,
  tallySession,
} from "./session-tally.ts";

/** The part of a group's counts that comes out of the session logs. */
export type LoggedCounts = Pick<
  GroupCounts,
  "sessions" | "leftOut" | "counts" | "checks" | "freeLooks" | "observerPairs" | "work"
>;

interface SessionRow extends Omit<CountedSession, "cuesDelivered" | "note"> {
  readonly number: number;
  readonly lastSeq: number;
}
interface StudentRow {
  readonly number: number;
  readonly id: string;
  readonly createdMs: number;
  readonly archivedMs: number | null;
}
interface OtherRow {
  readonly session: number;
  readonly seq: number;
  readonly kind: string;
  readonly student: number | null;
  readonly cue: number | null;
  readonly value: string | null;
  readonly detail: string | null;
}
interface Counted {
  readonly row: SessionRow;
  readonly tally: SessionTally;
}

/** The kinds of which the detail is needed to count. */
const detailed = new Set(["total", "observed", "work", "note", "interruption", "left-out"]);

/** Counting marks out of the logs. A session is counted once and again only when its log has grown. */
export function countsRepository({ bare }: Connection) {
  const tallies = new Map<number, { readonly lastSeq: number; readonly tally: SessionTally }>();

  const endedSessions = bare.prepare<[string | null], SessionRow>(
    `SELECT number, id, kind, started_ms AS startedMs, offset_minutes AS offsetMinutes, day,
       json_extract(plan, '$.meanSeconds') AS meanSeconds,
       ifnull(json_extract(plan, '$.subject'), '') AS subject,
       (SELECT max(seq) FROM session_event WHERE session_number = number) AS lastSeq
     FROM session
     WHERE group_id = ifnull(?, group_id) AND kind <> 'practice'
       AND EXISTS (SELECT 1 FROM session_event WHERE session_number = number AND kind = 'ended')
     ORDER BY started_ms, id`,
  );
  const groupStudents = bare.prepare<[string], StudentRow>(
    `SELECT number, id, created_ms AS createdMs, archived_ms AS archivedMs
     FROM student WHERE group_id = ? ORDER BY position, id`,
  );
  // One number a mark: rows of several columns would take three times as long. See PackedMark.
  const marks = bare
    .prepare<[number], PackedMark>(
      `SELECT student_number * 16384 + cue * 8
         + (value = 'on') + (value = 'off') * 2 + (way = 'paper') * 4
       FROM session_event WHERE session_number = ? AND kind = 'mark' ORDER BY seq`,
    )
    .pluck();
  const others = bare.prepare<[string], OtherRow>(
    `SELECT session_number AS session, seq, kind, student_number AS student, cue, value, detail
     FROM session_event
     WHERE session_number IN (SELECT value FROM json_each(?))
       AND kind <> 'mark' AND kind <> 'announced'
     ORDER BY session_number, seq`,
  );
  const marksBefore = bare
    .prepare<[number, number], number>(
      `SELECT count(*) FROM session_event WHERE session_number = ? AND seq < ? AND kind = 'mark'`,
    )
    .pluck();

  function toOther({ session, seq, detail, ...event }: OtherRow): OtherEvent {
    return {
      ...event,
      detail: detail !== null && detailed.has(event.kind) ? JSON.parse(detail) : {},
      marksBefore: event.kind === "total" ? (marksBefore.get(session, seq) ?? 0) : 0,
    };
  }

  /** The sessions whose log has grown since they were counted last. */
  const grownOf = (rows: readonly SessionRow[]): SessionRow[] =>
    rows.filter(({ number, lastSeq }) => tallies.get(number)?.lastSeq !== lastSeq);

  function countAnew(grown: readonly SessionRow[]): void {
    const numbers = JSON.stringify(grown.map(({ number }) => number));
    const bySession = Map.groupBy(others.all(numbers), ({ session }) => session);
    for (const { number, lastSeq } of grown) {
      const rest = (bySession.get(number) ?? []).map(toOther);
      tallies.set(number, { lastSeq, tally: tallySession(marks.all(number), rest) });
    }
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
      const students = groupStudents.all(groupId);
      const rows = endedSessions.all(groupId);
      countAnew(grownOf(rows));
      const all = rows.flatMap((row) => {
        const counted = tallies.get(row.number);
        return counted === undefined ? [] : [{ row, tally: counted.tally }];
      });
      const sessions = all.filter(({ tally }) => tally.leftOutBecause === null);
      const idOf = new Map(students.map(({ number, id }) => [number, id]));
      return {
        sessions: sessions.map(toSession),
        leftOut: all.flatMap(toLeftOut),
        counts: students.map((student) => toCounts(student, sessions)),
        checks: sessions.flatMap((counted) => toChecks(counted, idOf)),
        freeLooks: sessions.flatMap(({ row, tally }) =>
          tally.freeLooks.flatMap(({ student, seen }) => {
            const studentId = idOf.get(student);
            return studentId === undefined ? [] : [{ studentId, sessionId: row.id, seen }];
          }),
        ),
        observerPairs: sessions.flatMap(({ row, tally }) =>
          tally.observerPairs.flatMap(({ student, ...pair }) => {
            const studentId = idOf.get(student);
            return studentId === undefined ? [] : [{ studentId, sessionId: row.id, ...pair }];
          }),
        ),
        work: sessions.flatMap(({ row, tally }) =>
          [...tally.work].flatMap(([student, work]) => {
            const studentId = idOf.get(student);
            return studentId === undefined ? [] : [{ studentId, sessionId: row.id, ...work }];
          }),
        ),
      };
    },

    /**
     * Counts up to so many sessions, of any group, that nobody has asked for yet: done bit by bit while
     * the app has nothing to do, the first question of a day is answered at once.
     *
     * @returns whether any are left
     */
    countAhead(most: number): boolean {
      const grown = grownOf(endedSessions.all(null));
      countAnew(grown.slice(-most));
      return grown.length > most;
    },

    /** After an erasure: what was counted may name who is gone. */
    forget(): void {
      tallies.clear();
    },
  };
}
export type Counts = ReturnType<typeof countsRepository>;

function toSession({ row, tally }: Counted): CountedSession {
  const { number: _number, lastSeq: _lastSeq, ...facts } = row;
  return { ...facts, cuesDelivered: tally.cuesDelivered, note: tally.note };
}

function toLeftOut({ row, tally }: Counted): LeftOutSession[] {
  if (tally.leftOutBecause === null) return [];
  const { id, kind, startedMs, offsetMinutes, day } = row;
  return [{ id, kind, startedMs, offsetMinutes, day, reason: tally.leftOutBecause }];
}

function toChecks({ row, tally }: Counted, idOf: ReadonlyMap<number, string>): CheckPair[] {
  return tally.checks.flatMap(({ student, cue, said, seen }) => {
    const studentId = idOf.get(student);
    if (studentId === undefined) return [];
    return [{ studentId, sessionId: row.id, day: row.day, cue, student: said, seen }];
  });
}

function toCounts(student: StudentRow, sessions: readonly Counted[]): StudentCounts {
  return {
    studentId: student.id,
    self: toColumns(sessions.map((counted) => selfOf(student, counted))),
    observer: toColumns(sessions.map(({ tally }) => tally.observer.get(student.number) ?? null)),
  };
}

function selfOf(student: StudentRow, { row, tally }: Counted): MarkCounts | null {
  if (!tally.recorded.has(student.number) && !asksStudents(row.kind)) return null;
  const known = tally.self.get(student.number);
  if (known !== undefined) return known;
  const { createdMs, archivedMs } = student;
  const belonged = createdMs <= row.startedMs && (archivedMs ?? Infinity) > row.startedMs;
  return belonged ? { on: 0, off: 0, missing: tally.cuesDelivered } : null;
}

const asksStudents = (kind: SessionKind): boolean => kind === "seatwork";

function toColumns(counts: readonly (MarkCounts | null)[]): CountColumns {
  return {
    on: counts.map((count) => count?.on ?? null),
    off: counts.map((count) => count?.off ?? null),
    missing: counts.map((count) => count?.missing ?? null),
  };
}
