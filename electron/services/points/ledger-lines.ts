import type { LedgerLine } from "../../../shared/transfer/ledger-line.ts";
import { momentText } from "../../../shared/transfer/moment.ts";
import type { LedgerEntry } from "../../store/ledger/entries.ts";
import type { Privileges } from "../../store/privileges.ts";

/** Entries of the ledger as they leave, with the names of what they bought. */
export function ledgerLines(
  entries: readonly LedgerEntry[],
  privileges: Pick<Privileges, "get">,
): LedgerLine[] {
  const names = new Map<string, string | null>();
  const nameOf = (id: string): string | null => {
    const known = names.get(id);
    if (known !== undefined) return known;
    const name = privileges.get(id)?.name ?? null;
    names.set(id, name);
    return name;
  };
  return entries.map((entry) => ({
    studentId: entry.studentId,
    number: entry.number,
    at: momentText(entry.wallMs, entry.offsetMinutes),
    day: entry.day,
    source: entry.source,
    rule: entry.rule,
    amount: entry.amount,
    due: entry.due,
    forgiven: entry.forgiven,
    privilege: entry.privilegeId === null ? null : nameOf(entry.privilegeId),
  }));
}
