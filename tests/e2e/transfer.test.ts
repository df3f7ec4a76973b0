import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { groupRecordSchema } from "../../shared/transfer/group-record.ts";
import { axeFindingsInBoth } from "./support/axe.ts";
import { launchLoopback } from "./support/launch.ts";
import { schemaErrors } from "./support/schema-errors.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const folder = temporaryFolder();
const files = temporaryFolder();
let app: Awaited<ReturnType<typeof launchLoopback>>;
let page: Page;

const button = (name: string | RegExp) => page.getByRole("button", { name });
const link = (name: string | RegExp) => page.getByRole("link", { name });

beforeAll(async () => {
  app = await launchLoopback({ dataFolder: folder.path, args: ["--sample"] });
  page = await app.page();
});

afterAll(async () => {
  await app.close();
  folder.remove();
  files.remove();
});

async function openTransfer(group: string) {
  await link("Groups").first().click();
  await link(group).first().click();
  await link("Import and export").click();
  await page.getByRole("heading", { name: "Import and export" }).waitFor();
}

/** Presses a button and gives what was downloaded. */
async function saved(name: string): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([page.waitForEvent("download"), button(name).click()]);
  return {
    name: download.suggestedFilename(),
    text: readFileSync(await download.path(), "utf8"),
  };
}

async function choose(name: string, lines: readonly string[]) {
  const path = join(files.path, name);
  writeFileSync(path, lines.join("\r\n"));
  // Through the press, which is what lets the same file be chosen again once it is repaired.
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    button("Choose a file").click(),
  ]);
  await chooser.setFiles(path);
}

describe("Records out of one group and into another", () => {
  let csv = "";

  it("are saved as CSV, as JSON in the documented form, and as one student's whole record", async () => {
    await openTransfer("Sample class (invented)");
    expect(await axeFindingsInBoth(page)).toEqual([]);
    const table = await saved("Save as CSV");
    expect(table.name).toMatch(/^Sample-class-invented-\d{4}-\d\d-\d\d\.csv$/);
    csv = table.text;
    expect(csv.split("\r\n")[0]).toBe(
      "student,started_at,phase,source,on_task,off_task,no_mark,subject,assigned,completed,correct",
    );
    expect(csv).toMatch(/^Otter,.*,baseline,observer,/m);
    const json = (await saved("Save as JSON")).text;
    expect(schemaErrors("group-record", json)).toEqual([]);
    expect(schemaErrors("group-record", json.replace("baseline", "base"))).not.toEqual([]);
    const record = groupRecordSchema.parse(JSON.parse(json));
    const lines = csv.trimEnd().split("\r\n");
    expect(record.counts).toHaveLength(lines.length - 1);
    await button(/Student/).click();
    await page.getByRole("option", { name: "Otter" }).click();
    const own = await saved("Save the whole record");
    expect(own.name).toMatch(/^Otter-/);
    expect(JSON.parse(own.text)).toMatchObject({
      form: "pebblechime-student-record",
      student: { name: "Otter" },
    });
    expect(own.text).not.toContain("Juniper");
    expect(schemaErrors("student-record", own.text)).toEqual([]);
    expect(schemaErrors("student-record", json)).not.toEqual([]);
  });

  it("are refused whole when a line is bad, with its number and what to do", async () => {
    await link("Groups").first().click();
    await page.getByLabel("Group name").fill("Next year");
    await button("Make this group").click();
    await page.getByRole("heading", { name: "Next year" }).waitFor();
    await openTransfer("Next year");
    await choose("bad.csv", [
      "name,start,on task,off task",
      "Fern,2026-02-16T09:15:00+01:00,6,2",
      "Fern,16 February,6,two",
    ]);
    await page.getByText("1 line cannot be imported").waitFor();
    await page.getByText(/Line 3: the start is “16 February”/).waitFor();
    await page.getByText(/Line 3: off task is “two”/).waitFor();
    expect(await button(/^Import/).isDisabled()).toBe(true);
    expect(await axeFindingsInBoth(page)).toEqual([]);
    await choose("workbook.csv", ["PK\u0003\u0004\u0000\u0000"]);
    await page.getByText(/cannot be read as a table/).waitFor();
  });

  it("are brought in after the columns were chosen, and can be seen", async () => {
    await choose("good.csv", [
      "Kind;Begun;Dabei;Nicht",
      "Fern;2026-02-16T09:15:00+01:00;6;2",
      "Robin;2026-02-16T09:15:00+01:00;3;5",
      "Fern;2026-02-17T09:15:00+01:00;7;1",
    ]);
    for (const [field, column] of [
      ["Student", "1. Kind"],
      ["Start", "2. Begun"],
      ["On task", "3. Dabei"],
      ["Off task", "4. Nicht"],
    ] as const) {
      await button(`Not in the file ${field}`).click();
      await page.getByRole("option", { name: column }).click();
    }
    await page.getByText("3 lines: 2 sessions of 2 students.").waitFor();
    await page.getByText("These 2 students are new and will be added: Fern and Robin.").waitFor();
    expect(await axeFindingsInBoth(page)).toEqual([]);
    await button("Import 3 lines").click();
    await page.getByText("Imported: 2 sessions, 2 students added.").waitFor();
    const back = await saved("Save as CSV");
    expect(back.text.trimEnd().split("\r\n").slice(1)).toEqual([
      "Fern,2026-02-16T09:15:00+01:00,,self,6,2,0,,,,",
      "Fern,2026-02-17T09:15:00+01:00,,self,7,1,0,,,,",
      "Robin,2026-02-16T09:15:00+01:00,,self,3,5,0,,,,",
    ]);
  });

  it("are not brought in twice: the line of the file is named", async () => {
    await choose("again.csv", [
      "student,start,on,off",
      "Robin,2026-02-18T09:15:00+01:00,1,1",
      "",
      "fern,2026-02-16T08:15:00Z,1,1",
    ]);
    await button("Import 2 lines").click();
    await page.getByText(/repeats a student, time and source .* in the file, 4/).waitFor();
    await button("Cancel").click();
  });

  it("are taken back as one", async () => {
    await button(/^Undo what was imported/).click();
    await button("Undo it").click();
    await page.getByText("Undone: 2 sessions, 2 students.").waitFor();
    expect((await saved("Save as CSV")).text.trimEnd().split("\r\n")).toHaveLength(1);
    await link("Next year").click();
    await page.getByText("No students yet").waitFor();
  });

  it("may be a class of students, with the bad lines told and the good ones taken back again", async () => {
    await openTransfer("Next year");
    await choose("class-list.csv", ["name,picture", "Fern,Shell", "fern,", "Robin,Castle"]);
    await page.getByText("2 lines cannot be imported").waitFor();
    await page.getByText(/Line 3: the same name as line 2/).waitFor();
    await page.getByText(/Line 4: there is no picture called “Castle”/).waitFor();
    expect(await axeFindingsInBoth(page)).toEqual([]);
    await choose("class-list.csv", ["name,picture,target", "Fern,Shell,", "Robin,,Pen moving"]);
    await page.getByText("2 students would be added to this group.").waitFor();
    await button("Import 2 lines").click();
    await page.getByText("Imported: 2 students.").waitFor();
    await choose("again.csv", ["name", "Robin"]);
    await page.getByText(/Line 2: “Robin” is already in this group/).waitFor();
    await button("Cancel").click();
    await button(/^Undo what was imported/).click();
    await page.getByText(/^The students it added are removed/).waitFor();
    await button("Undo it").click();
    await page.getByText("Undone: 2 students.").waitFor();
    await link("Next year").click();
    await page.getByText("No students yet").waitFor();
  });

  it("of a whole class come back as they went out", async () => {
    await openTransfer("Next year");
    await choose("class.csv", csv.split("\r\n"));
    await button(/^Import \d+ lines/).click();
    await page.getByText(/^Imported: \d+ sessions, 8 students added, 2 phases\./).waitFor();
    const back = await saved("Save as CSV");
    // Work done does not come in; everything else is the same.
    expect(withoutWork(back.text)).toEqual(withoutWork(csv));
  });
});

/** The lines without their last three fields, in the order of the alphabet: sessions have new ids. */
const withoutWork = (csv: string): string[] =>
  csv
    .trimEnd()
    .split("\r\n")
    .map((line) => line.split(",").slice(0, -3).join(","))
    .sort();

describe("A recording of the cues", () => {
  it("is made in the data folder, which the page names", async () => {
    await button("Another").click();
    expect(await page.getByLabel("Seed").inputValue()).toMatch(/^[a-z0-9]{8}$/);
    await page.getByLabel("Seed").fill("paper 7");
    await page.getByText("FLAC", { exact: true }).click();
    await button("Make the recording").click();
    const place = page.locator(".transfer-path");
    await place.waitFor({ timeout: 60_000 });
    const path = (await place.textContent()) ?? "";
    expect(path.startsWith(join(folder.path, "recordings"))).toBe(true);
    expect(readFileSync(path).subarray(0, 4).toString()).toBe("fLaC");
    expect(await axeFindingsInBoth(page)).toEqual([]);
  });
});

describe("Days off", () => {
  it("are added and removed on the settings page; a wrong order is refused in words", async () => {
    await link("Settings").click();
    // The days of a term have the same labels.
    const form = page.locator("form").filter({ has: page.getByLabel("What for") });
    await form.getByLabel("First day").fill("2026-12-21");
    await form.getByLabel("Last day").fill("2026-12-20");
    await form.getByLabel("What for").fill("Winter holidays");
    await form.getByRole("button", { name: "Add" }).click();
    await page.getByText("The last day comes before the first.").waitFor();
    await form.getByLabel("Last day").fill("2027-01-06");
    await form.getByRole("button", { name: "Add" }).click();
    const item = page.getByText(/21.* 2026 to .*6.* 2027 \(Winter holidays\)/).first();
    await item.waitFor();
    expect(await axeFindingsInBoth(page)).toEqual([]);
    await button(/^Remove: .*Winter holidays/).click();
    await page.getByText("No days off yet.").waitFor();
  });
});
