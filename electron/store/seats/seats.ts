import type Database from "better-sqlite3";
import { z } from "zod";
import { readableJson } from "../file/stored-json.ts";

/** A student's own device, by its slip. */
export interface SeatRow {
  readonly id: string;
  readonly groupId: string;
  readonly number: number;
  readonly studentId: string | null;
  /** A hash; null once the slip is void, and before there is one. */
  readonly code: string | null;
  readonly language: "en" | "es";
  readonly look: "words" | "pictures";
  readonly printedMs: number | null;
}
export type SeatDress = Pick<SeatRow, "language" | "look">;

/** Kept beside the teacher's choices and never among them: no page is told these. */
const notes = {
  salt: { name: "seat-codes-salt", schema: z.string().min(16).max(60) },
  /** The day on which seats were opened and not closed again by the teacher. */
  wantedDay: { name: "seats-wanted-day", schema: z.iso.date() },
  /** The address on the newest slips. */
  printedAddress: { name: "seats-printed-address", schema: z.string().max(200) },
} as const;
type NoteName = keyof typeof notes;

const rows = `SELECT id, group_id AS groupId, number, student_id AS studentId, code, language, look,
    printed_ms AS printedMs
  FROM seat`;

/** Students' own devices, and the slips that open them. */
export function seatRepository(bare: Database.Database) {
  const byId = bare.prepare<[string], SeatRow>(`${rows} WHERE id = ?`);
  const byHash = bare.prepare<[string], SeatRow>(`${rows} WHERE code = ?`);
  const ofGroup = bare.prepare<[string], SeatRow>(`${rows} WHERE group_id = ? ORDER BY number`);
  const insert = bare.prepare(
    `INSERT INTO seat (id, group_id, number, student_id, code, language, look, printed_ms)
     SELECT @id, @groupId, 1 + ifnull(max(number), 0), @studentId, NULL, @language, @look, NULL
     FROM seat WHERE group_id = @groupId`,
  );
  const code = bare.prepare("UPDATE seat SET code = ?, printed_ms = ? WHERE id = ?");
  const leave = bare.prepare("UPDATE seat SET student_id = NULL WHERE student_id = ?");
  const own = bare.prepare("UPDATE seat SET student_id = ? WHERE id = ?");
  const dressed = bare.prepare("UPDATE seat SET language = @language, look = @look WHERE id = @id");
  const gone = bare.prepare("DELETE FROM seat WHERE id = ?");
  const noted = bare.prepare<[string], string>("SELECT value FROM setting WHERE name = ?").pluck();
  const unnote = bare.prepare("DELETE FROM setting WHERE name = ?");
  const note = bare.prepare("INSERT INTO setting (name, value) VALUES (?, ?)");
  const together = (work: () => void): void => {
    if (bare.inTransaction) work();
    else bare.transaction(work).immediate();
  };

  return {
    get: (id: string): SeatRow | null => byId.get(id) ?? null,

    /** The seat with this hashed code. */
    byCode: (hashed: string): SeatRow | null => byHash.get(hashed) ?? null,

    list: (groupId: string): SeatRow[] => ofGroup.all(groupId),

    /** A seat after those that the group has, for a student or for nobody yet, without a slip. */
    add(seat: SeatDress & Pick<SeatRow, "id" | "groupId" | "studentId">): void {
      insert.run(seat);
    },

    /** Another code in the place of the old one; null makes the slip void. */
    saveCode(id: string, hashed: string | null, nowMs: number): void {
      code.run(hashed, hashed === null ? null : Math.round(nowMs), id);
    },

    /** Ties a seat to a student, or to nobody; a student leaves the seat that was theirs. */
    tie(id: string, studentId: string | null): void {
      together(() => {
        if (studentId !== null) leave.run(studentId);
        own.run(studentId, id);
      });
    },

    dress(id: string, { language, look }: SeatDress): void {
      dressed.run({ id, language, look });
    },

    remove(id: string): void {
      gone.run(id);
    },

    note(which: NoteName): string | null {
      const { name, schema } = notes[which];
      const kept = noted.get(name);
      return kept === undefined ? null : (readableJson(schema, kept) ?? null);
    },

    saveNote(which: NoteName, said: string | null): void {
      const { name } = notes[which];
      together(() => {
        unnote.run(name);
        if (said !== null) note.run(name, JSON.stringify(said));
      });
    },
  };
}
export type Seats = ReturnType<typeof seatRepository>;
