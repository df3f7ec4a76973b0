import type Database from "better-sqlite3";
import { type Contract, contractTermsSchema } from "../../../shared/home/contract-terms.ts";
import { storedJson } from "../file/stored-json.ts";

type Row = Omit<Contract, "terms"> & { readonly terms: string };

/** A day of a contract that was closed. */
export interface ClosedDay {
  readonly id: string;
  readonly contractId: string;
  readonly studentId: string;
  readonly day: string;
}

const toContract = ({ terms, ...row }: Row): Contract => ({
  ...row,
  terms: storedJson(contractTermsSchema, terms),
});

const columns = `contract.id, student_id AS studentId, terms, from_day AS fromDay,
  review_on AS reviewOn, signed_on AS signedOn, ended_on AS endedOn`;

/** Contracts: what one says is never changed, only whether it is signed and when it ended. */
export function contractRepository(bare: Database.Database) {
  const insert = bare.prepare<[Row & { madeMs: number }]>(
    `INSERT INTO contract (id, student_id, terms, from_day, review_on, made_ms, signed_on, ended_on)
     VALUES (@id, @studentId, @terms, @fromDay, @reviewOn, @madeMs, @signedOn, @endedOn)`,
  );
  const one = bare.prepare<[string], Row>(`SELECT ${columns} FROM contract WHERE id = ?`);
  const ofStudent = bare.prepare<[string], Row>(
    `SELECT ${columns} FROM contract WHERE student_id = ? ORDER BY made_ms DESC, id DESC`,
  );
  const ofGroup = bare.prepare<[string], Row>(
    `SELECT ${columns} FROM contract JOIN student ON student.id = student_id
     WHERE group_id = ? AND student.archived_ms IS NULL ORDER BY position, made_ms, contract.id`,
  );
  const signed = bare.prepare<[string, string]>("UPDATE contract SET signed_on = ? WHERE id = ?");
  const ended = bare.prepare<[string, string]>("UPDATE contract SET ended_on = ? WHERE id = ?");
  const insertDay = bare.prepare<[ClosedDay & { wallMs: number }]>(
    `INSERT INTO contract_day (id, contract_id, student_id, day, wall_ms)
     VALUES (@id, @contractId, @studentId, @day, @wallMs)`,
  );
  const daysOf = bare.prepare<[string], ClosedDay>(
    `SELECT id, contract_id AS contractId, student_id AS studentId, day FROM contract_day
     WHERE contract_id = ? ORDER BY day`,
  );
  const daysOfStudent = bare.prepare<[string], ClosedDay>(
    `SELECT id, contract_id AS contractId, student_id AS studentId, day FROM contract_day
     WHERE student_id = ? ORDER BY day`,
  );

  return {
    get(id: string): Contract | null {
      const row = one.get(id);
      return row === undefined ? null : toContract(row);
    },

    /** Newest first. */
    ofStudent: (studentId: string): Contract[] => ofStudent.all(studentId).map(toContract),

    /** Of the students in use, in their order. */
    ofGroup: (groupId: string): Contract[] => ofGroup.all(groupId).map(toContract),

    add({ terms, ...contract }: Contract, madeMs: number): void {
      insert.run({ ...contract, terms: JSON.stringify(terms), madeMs: Math.round(madeMs) });
    },

    sign: (id: string, day: string): void => void signed.run(day, id),
    end: (id: string, day: string): void => void ended.run(day, id),

    /** The days that were closed, oldest first. */
    closedDays: (contractId: string): ClosedDay[] => daysOf.all(contractId),

    /** The same of all contracts of a student. */
    closedDaysOf: (studentId: string): ClosedDay[] => daysOfStudent.all(studentId),

    close(day: ClosedDay, wallMs: number): void {
      insertDay.run({ ...day, wallMs: Math.round(wallMs) });
    },
  };
}
export type Contracts = ReturnType<typeof contractRepository>;
