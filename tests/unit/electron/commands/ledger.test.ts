import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { ledger } from "../../../../electron/commands/ledger.ts";
import type { LedgerLine } from "../../../../shared/transfer/ledger-line.ts";

const folder = mkdtempSync(join(tmpdir(), "pebblechime-ledger-file-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const pine = "01900000-0000-7000-8000-000000000002";
const line = (number: number, day: string, more: Partial<LedgerLine>): LedgerLine => ({
  studentId: pine,
  number,
  at: `${day}T10:00:00+01:00`,
  day,
  source: "session",
  rule: "mark",
  amount: 0,
  due: null,
  forgiven: 0,
  privilege: null,
  ...more,
});
const lines = [
  line(1, "2026-03-02", { amount: 8, due: 8 }),
  line(2, "2026-03-02", { source: "press", rule: "given", amount: 2 }),
  line(3, "2026-03-02", { source: "press", rule: "taken", amount: -2 }),
  line(4, "2026-03-03", { amount: 6, due: 6 }),
  line(5, "2026-03-03", { source: "exchange", rule: "exchange", amount: -5, privilege: "Seat" }),
  // A take and an exchange that were taken back.
  line(6, "2026-03-03", { source: "reversal", rule: "taken", amount: 1 }),
  line(7, "2026-03-03", { source: "reversal", rule: "exchange", amount: 5 }),
];

async function printed(content: unknown, ...args: string[]): Promise<string> {
  const path = join(folder, "record.json");
  writeFileSync(path, typeof content === "string" ? content : JSON.stringify(content));
  let text = "";
  await ledger.run([path, ...args], {
    write: (more) => {
      text += more;
    },
  });
  return text;
}

const record = {
  form: "pebblechime-group-record",
  version: 4,
  students: [{ id: pine, name: "Pine", target: "", archived: false }],
  ledger: lines,
};

describe("cli ledger", () => {
  it("adds up balances, ratios and income", async () => {
    const { students } = JSON.parse(await printed(record, "--json"));
    expect(students).toEqual([
      {
        name: "Pine",
        studentId: pine,
        balance: 15,
        given: 16,
        taken: 1,
        ratio: 16,
        spent: 0,
        days: 2,
        incomeADay: 7.5,
      },
    ]);
    expect(await printed(record)).toContain("balance 15, given 16, taken 1 (16.0 to one)");
  });

  it("says so where there is nothing to add up", async () => {
    expect(await printed({ ...record, ledger: [] })).toBe("There are no points in this record.\n");
  });

  it.each([
    ["{", "is not JSON"],
    [{ form: "other" }, "is not a record saved by Pebblechime"],
    [{ ...record, version: 3, ledger: undefined }, "Version 3 of the record holds no points"],
  ])("%j is refused", async (content, message) => {
    await expect(printed(content)).rejects.toThrow(message);
  });
});
