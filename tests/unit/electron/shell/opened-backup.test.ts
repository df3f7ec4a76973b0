import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { AskedBackup, backupIn, restorePage } from "../../../../electron/shell/opened-backup.ts";

describe("a backup that the system opens", () => {
  it("is found in the line of a second start, from the folder where that was made", () => {
    const folder = resolve("/stick");
    const line = ["Pebblechime", "--no-sandbox", "copy.pebblechime"];
    expect(backupIn(line, folder, true)).toBe(join(folder, "copy.pebblechime"));
    expect(backupIn(["electron", ".", "/a/b.sqlite"], folder, false)).toBe(resolve("/a/b.sqlite"));
    expect(backupIn(["Pebblechime", "--sample"], folder, true)).toBeNull();
  });

  it("leads to the page that shows what restoring it would lose", () => {
    expect(restorePage("20260302T100000000Z-brought.pebblechime")).toBe(
      "/settings?restore=20260302T100000000Z-brought.pebblechime",
    );
  });

  it("waits until somebody shows pages, and is shown once", () => {
    const asked = new AskedBackup();
    const shown: (string | null)[] = [];
    asked.ask("/early");
    asked.ask(null);
    expect(asked.take()).toBe("/early");
    asked.ask("/while opening");
    asked.follow(() => shown.push(asked.take()));
    asked.ask("/later");
    expect(shown).toEqual(["/while opening", "/later"]);
    expect(asked.take()).toBeNull();
  });
});
