import type { MarkCounts } from "../../shared/record/counts.ts";
import type {
  CheckPair,
  CountColumns,
  CountedSession,
  GroupCounts,
  LeftOutSession,
  StudentCounts,
} from "../../shared/record/group-counts.ts";
import { type SessionKind, sessionEventKinds } from "../../shared/session/event.ts";
import type { Connection } from "./connection.ts";
import { type Damage, damageFound } from "./damage.ts";
import { eventDetail } from "./event-detail.ts";
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

const eventKinds = JSON.stringify(sessionEventKinds);

/** The numbers of the entries of a session that are passed over as damaged. */
const passedOver = `SELECT json_extract(detail, '$.seq') FROM session_event
  WHERE session_number = @number AND kind = 'passed-over' AND json_valid(detail)`;

/**
 * Counting marks out of the logs. A session is counted once and again only when its log has grown; one
 * that is damaged is not counted at all, rather than wrongly.
 *
 * @param damage is told of what cannot be read
 */
export function countsRepository({ bare }: Connection, damage: Damage = damageFound()) {
  const tallies = new Map<
    number,
    { readonly lastSeq: number; readonly tally: SessionTally | null }
  >();

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
  const groupStudents = bare.prepare<[string], StudentRow>(
    `SELECT number, id, created_ms AS createdMs, archived_ms AS archivedMs
     FROM student WHERE group_id = ? ORDER BY position, id`,
  );
  // One number a mark: rows of several columns would take three times as long. See PackedMark.
  const marks = bare
    .prepare<[{ number: number }], PackedMark>(
      `SELECT student_number * 16384 + cue * 8
         + (value = 'on') + (value = 'off') * 2 + (way = 'paper') * 4
       FROM session_event
       WHERE session_number = @number AND kind = 'mark' AND seq NOT IN (${passedOver})
       ORDER BY seq`,
    )
    .pluck();
  // What no program of ours writes, so that damage to a mark does not pass for a mark taken back.
  const impossible = bare.prepare<[{ number: number; kinds: string }], { seq: number }>(
    `SELECT seq FROM session_event
     WHERE session_number = @number AND seq NOT IN (${passedOver}) AND (
       kind NOT IN (SELECT value FROM json_each(@kinds))
       OR detail IS NOT NULL AND NOT json_valid(detail)
       OR student_number IS NULL AND kind IN
         ('mark', 'total', 'set-aside', 'back', 'spot-check', 'observed', 'work')
       OR cue IS NULL AND kind IN ('mark', 'announced', 'delivered', 'undelivered', 'observed')
       OR kind = 'mark' AND (late IS NULL OR way IS NULL OR value IS NULL
         OR way NOT IN ('screen', 'paper', 'seat', 'import') OR value NOT IN ('on', 'off', 'none'))
       OR kind IN ('spot-check', 'observed')
         AND (value IS NULL OR value NOT IN ('on', 'off', 'unseen'))
     )`,
  );
  const others = bare.prepare<[string], OtherRow>(
    `SELECT session_number AS session, seq, kind, student_number AS student, cue, value, detail
     FROM session_event
     WHERE session_number IN (SELECT value FROM json_each(?))
       AND kind <> 'mark' AND kind <> 'announced'
     ORDER BY session_number, seq`,
  );
  const passedOverOf = bare.prepare<[{ number: number }], number>(passedOver).pluck();
  const marksBefore = bare
    .prepare<[{ number: number; seq: number }], number>(
      `SELECT count(*) FROM session_event
       WHERE session_number = @number AND seq < @seq AND kind = 'mark' AND seq NOT IN (${passedOver})`,
    )
    .pluck();

  function toOther({ session, seq, detail: text, ...event }: OtherRow): OtherEvent | null {
    const detail = eventDetail(event.kind, text);
    if (detail === null) return null;
    const earlier = event.kind === "total" ? (marksBefore.get({ number: session, seq }) ?? 0) : 0;
    return { ...event, detail, marksBefore: earlier };
  }

  /** The tally of a session, or how many of its entries cannot be read. */
  function tallyOf(number: number, rows: readonly OtherRow[]): SessionTally | number {
    const damaged = new Set(impossible.all({ number, kinds: eventKinds }).map(({ seq }) => seq));
    const out = new Set(
      rows.some(({ kind }) => kind === "passed-over") ? passedOverOf.all({ number }) : [],
    );
    const rest: OtherEvent[] = [];
    for (const row of rows) {
      if (out.has(row.seq)) continue;
      const other = toOther(row);
      if (other === null) damaged.add(row.seq);
      else rest.push(other);
    }
    return damaged.size > 0 ? damaged.size : tallySession(marks.all({ number }), rest);
  }

  /** The sessions whose log has grown since they were counted last. */
  const grownOf = (rows: readonly SessionRow[]): SessionRow[] =>
    rows.filter(({ number, lastSeq }) => tallies.get(number)?.lastSeq !== lastSeq);

  function countAnew(grown: readonly SessionRow[]): void {
    const numbers = JSON.stringify(grown.map(({ number }) => number));
    const bySession = Map.groupBy(others.all(numbers), ({ session }) => session);
    for (const { number, id, lastSeq } of grown) {
      const tally = tallyOf(number, bySession.get(number) ?? []);
      const isWhole = typeof tally !== "number";
      if (!isWhole) damage.found(id, tally);
      tallies.set(number, { lastSeq, tally: isWhole ? tally : null });
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
        return counted?.tally == null ? [] : [{ row, tally: counted.tally }];
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
