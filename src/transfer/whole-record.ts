import type { StudentRecord } from "../../shared/api/transfer.ts";

interface Piece {
  readonly record: StudentRecord;
  readonly next: number | null;
}

/** Asks for a student's record piece by piece and puts it together. */
export async function wholeRecord(ask: (from: number) => Promise<Piece>): Promise<StudentRecord> {
  const first = await ask(0);
  const sessions = [...first.record.sessions];
  const ledger = [...first.record.ledger];
  let next = first.next;
  while (next !== null) {
    const piece = await ask(next);
    sessions.push(...piece.record.sessions);
    ledger.push(...piece.record.ledger);
    next = piece.next;
  }
  // Pieces hold what their sessions paid; together the lines stand as they were written.
  ledger.sort((one, other) => one.number - other.number);
  return { ...first.record, sessions, ledger };
}
