import type { StudentRecord } from "../../shared/api/transfer.ts";

interface Piece {
  readonly record: StudentRecord;
  readonly next: number | null;
}

/** Asks for a student's record piece by piece and puts it together. */
export async function wholeRecord(ask: (from: number) => Promise<Piece>): Promise<StudentRecord> {
  const first = await ask(0);
  const sessions = [...first.record.sessions];
  let next = first.next;
  while (next !== null) {
    const piece = await ask(next);
    sessions.push(...piece.record.sessions);
    next = piece.next;
  }
  return { ...first.record, sessions };
}
