import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axeFindingsInBoth } from "./support/axe.ts";
import { delayCalls } from "./support/delay-calls.ts";
import { type App, launchApp, launchLoopback } from "./support/launch.ts";
import { openedBy } from "./support/one-app.ts";
import { settledCues } from "./support/settled-cues.ts";
import { silentClass } from "./support/silent-class.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

/** PDF units are 1/72 inch: A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 inches. */
const papers = { A4: [595.28, 841.89], Letter: [612, 792] } as const;
type Paper = keyof typeof papers;

interface PdfPages {
  readonly count: number;
  readonly sizes: readonly (readonly [number, number])[];
}

/** Pages of a PDF, read from its page objects. */
function pagesOf(pdf: string): PdfPages {
  const sizes = [...pdf.matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)].map(
    ([, width, height]) => [Number(width), Number(height)] as const,
  );
  return { count: [...pdf.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length, sizes };
}

function expectPaper({ sizes }: PdfPages, paper: Paper): void {
  expect(sizes.length).toBeGreaterThan(0);
  for (const [width, height] of sizes) {
    expect(Math.abs(width - papers[paper][0])).toBeLessThan(1);
    expect(Math.abs(height - papers[paper][1])).toBeLessThan(1);
  }
}

const choose = async (page: Page, label: string, choice: string) => {
  const group = page.getByRole("radiogroup", { name: label });
  await group.getByText(choice, { exact: true }).click();
  await group.getByRole("radio", { name: choice, exact: true, checked: true }).waitFor();
};

describe("a class of 24 in the desktop app", () => {
  const folder = temporaryFolder();
  let app: App;
  let page: Page;
  const file = join(folder.path, "cards.pdf");

  beforeAll(async () => {
    app = await launchApp({ dataFolder: folder.path });
    page = await app.page();
    await page.getByLabel("Group name").fill("Window side");
    await page.getByRole("button", { name: "Make this group" }).click();
    await page.getByRole("heading", { name: "Window side" }).waitFor();
    const names = Array.from({ length: 24 }, (_, index) => `Reed ${index + 1}`);
    await page.getByLabel("Add students").fill(names.join("\n"));
    await page.getByRole("button", { name: "Add 24 students" }).click();
    await page.getByText("Reed 24", { exact: true }).waitFor();
    await app.evaluate((electron, filePath) => {
      electron.dialog.showSaveDialog = async () => ({ canceled: false, filePath });
    }, file);
    await page.getByRole("link", { name: /^Cards to print/ }).click();
    await page.getByRole("heading", { name: "Cards of Window side" }).waitFor();
  });
  afterAll(async () => {
    await app.kill();
    folder.remove();
  });

  const save = async (): Promise<PdfPages> => {
    await page.getByRole("button", { name: "Save as PDF…" }).click();
    await page.getByText(`Saved: ${file}`).waitFor();
    return pagesOf(readFileSync(file, "latin1"));
  };

  it.each([
    { perPage: "1", pages: 24 },
    { perPage: "2", pages: 12 },
    { perPage: "4", pages: 6 },
    { perPage: "8", pages: 3 },
  ])("saves $pages pages with $perPage cards on each, on the paper chosen", async (wish) => {
    await choose(page, "Cards on a page", wish.perPage);
    for (const paper of ["Letter", "A4"] as const) {
      await choose(page, "Paper for printing", paper);
      await page
        .locator(paper === "A4" ? ".sheet-a4" : ".sheet-letter")
        .first()
        .waitFor();
      const pdf = await save();
      expect(pdf.count).toBe(wish.pages);
      expectPaper(pdf, paper);
    }
  });
});

describe("print pages of the sample class", () => {
  const folder = temporaryFolder();
  let app: Awaited<ReturnType<typeof launchLoopback>>;
  let page: Page;
  let origin: string;
  const addresses = { cards: "", key: "", observation: "", report: "", family: "", own: "" };

  beforeAll(async () => {
    app = await launchLoopback({ dataFolder: folder.path, args: ["--sample"] });
    page = await app.page();
    origin = new URL(page.url()).origin;
    await page.getByRole("link", { name: "Sample class (invented)" }).first().click();
    const paper = page.locator(".paper-links a");
    await paper.first().waitFor();
    const [cards = "", key = "", observation = ""] = await paper.evaluateAll((links) =>
      links.map((link) => link.getAttribute("href") ?? ""),
    );
    const groupId = cards.split("/")[3] ?? "";
    await page.goto(`${origin}/progress/${groupId}`);
    const student = page.locator(`a[href^='/progress/${groupId}/']`).first();
    await student.waitFor();
    await student.click();
    const report = page.getByRole("link", { name: "Report for a meeting" });
    await report.waitFor();
    Object.assign(addresses, {
      cards,
      key: `${key}?seed=maple`,
      observation: `${observation}?seed=maple`,
      report: (await report.getAttribute("href")) ?? "",
      family: `/print/family/${groupId}`,
      own: `/print/own/${groupId}`,
    });
  });
  afterAll(async () => {
    await app.close();
    folder.remove();
  });

  const open = async (address: string) => {
    await page.goto(origin + address);
    await page.locator(".sheet").first().waitFor();
    await page.evaluate(() => document.fonts.ready);
  };

  const cardOptions = ["1", "2", "4", "8"].flatMap((cards) =>
    ["words", "symbols"].flatMap((look) =>
      ["normal", "large"].map((print) => [cards, look, print]),
    ),
  );
  /** Chosen by its value, which is the same in every language. */
  const chooseValue = async (value: string) => {
    const radio = page.locator(`input[type="radio"][value="${value}"]`).first();
    if (!(await radio.isChecked()))
      await radio.evaluate((input: HTMLInputElement) => input.click());
    await expect.poll(() => radio.isChecked()).toBe(true);
  };
  const others = ["key", "observation", "report", "family", "own"] as const;

  /** Parts that are larger than the place they are given, on the sheets shown now. */
  const overflowing = () =>
    page.evaluate(() => {
      const found: string[] = [];
      for (const part of document.querySelectorAll(".card, .card-head, .card-foot, .card-box")) {
        const tooHigh = part.scrollHeight > part.clientHeight + 1;
        if (tooHigh || part.scrollWidth > part.clientWidth + 1) {
          found.push(`${part.className}: ${part.textContent}`);
        }
      }
      // Boxes never reach into the line below them.
      for (const boxes of document.querySelectorAll(".card-boxes")) {
        const foot = boxes.nextElementSibling?.getBoundingClientRect();
        const last = boxes.lastElementChild?.getBoundingClientRect();
        if (foot && last && last.bottom > foot.top + 1) found.push(`boxes: ${boxes.textContent}`);
      }
      for (const sheet of document.querySelectorAll(".sheet-text")) {
        const { paddingBottom, paddingRight } = getComputedStyle(sheet);
        const edge = sheet.getBoundingClientRect();
        for (const part of sheet.querySelectorAll("*")) {
          const box = part.getBoundingClientRect();
          const isBelow = box.bottom > edge.bottom - Number.parseFloat(paddingBottom) + 1;
          const isBeside = box.right > edge.right - Number.parseFloat(paddingRight) + 1;
          if (box.width > 1 && (isBelow || isBeside)) found.push(part.outerHTML.slice(0, 120));
        }
      }
      return found;
    });

  /** Smallest type on the sheets in points, as the browser lays it out. */
  const smallestPoints = () =>
    page.evaluate(() => {
      let least = Number.POSITIVE_INFINITY;
      for (const part of document.querySelectorAll(".sheet *")) {
        const ownText = [...part.childNodes].some(
          (node) => node.nodeType === Node.TEXT_NODE && (node.textContent ?? "").trim() !== "",
        );
        if (!ownText || part.getClientRects().length === 0) continue;
        least = Math.min(least, (Number.parseFloat(getComputedStyle(part).fontSize) * 72) / 96);
      }
      return least;
    });

  const atPaper = async (language: string, paper: Paper) => {
    await page.goto(`${origin}/settings`);
    await page.getByText(language, { exact: true }).click();
    await page.getByText(paper, { exact: true }).click();
    await page.getByRole("radio", { name: paper, checked: true }).waitFor();
  };

  const cases = ["English", "Español"].flatMap((language) =>
    (["A4", "Letter"] as const).map((paper) => ({ language, paper })),
  );

  it.each(cases)(
    "fit their sheets and can be read, in $language on $paper",
    async ({ language, paper }) => {
      await atPaper(language, paper);
      await open(addresses.cards);
      for (const options of cardOptions) {
        for (const value of options) await chooseValue(value);
        const said = options.join(", ");
        expect(await overflowing(), said).toEqual([]);
        const onSheet = await page.locator(".sheet").first().locator(".card").count();
        const least = options.includes("large") ? 18 : onSheet === 8 ? 9 : 11;
        expect(await smallestPoints(), said).toBeGreaterThanOrEqual(least - 0.01);
      }
      // So many cues, and so long a seed, that the key has several sheets.
      await open(`${addresses.key}&mean=20`.replace("maple", "w".repeat(80)));
      expect(await page.locator(".sheet").count()).toBeGreaterThan(1);
      expect(await overflowing(), "a key of several sheets").toEqual([]);
      for (const name of others) {
        await open(addresses[name]);
        expect(await overflowing(), name).toEqual([]);
        expect(await smallestPoints(), name).toBeGreaterThanOrEqual(8.99);
      }
      for (const address of [addresses.cards, ...others.map((name) => addresses[name])]) {
        await open(address);
        let pdf: PdfPages = { count: 0, sizes: [] };
        const fits = async () => {
          const sheets = await page.locator(".sheet").count();
          pdf = pagesOf((await page.pdf({ preferCSSPageSize: true })).toString("latin1"));
          return sheets > 0 && pdf.count === sheets;
        };
        // What was agreed is asked for again once the page follows changes; until then nobody is named.
        await expect.poll(fits, { message: address }).toBe(true);
        expectPaper(pdf, paper);
      }
    },
  );

  it("keep the paper from the press on, however late the settings are read again", async () => {
    await atPaper("English", "A4");
    const late = await openedBy(page, "/settings");
    await late.addInitScript(delayCalls, { word: "app/settings", ms: 1_000 });
    await late.goto(origin + addresses.key);
    await late.getByRole("radio", { name: "A4", checked: true }).waitFor();
    const shown = late.evaluate(async () => {
      const seen: string[] = [];
      const until = performance.now() + 2_500;
      while (performance.now() < until) {
        const paper = getComputedStyle(document.querySelector(".sheet") ?? document.body).page;
        if (paper !== seen.at(-1)) seen.push(paper);
        await new Promise((resolve) => setTimeout(resolve, 10));
      }
      return seen;
    });
    await late.getByText("Letter", { exact: true }).click();
    expect(await shown).toEqual(["a4", "letter"]);
    await late.close();
  });

  it("give the tools of accessibility nothing to find, in light and dark", async () => {
    await atPaper("English", "A4");
    const cards = [`${addresses.cards}?look=symbols`, `${addresses.cards}?for=blank&day=open`];
    for (const address of [...cards, ...others.map((name) => addresses[name])]) {
      await open(address);
      expect(await axeFindingsInBoth(page), address).toEqual([]);
    }
  });

  it("never print a time on a card, and print every time on the key", async () => {
    await atPaper("English", "A4");
    await open(addresses.key);
    const times = await page.locator(".paper-time").allTextContents();
    expect(times.length).toBeGreaterThan(0);
    for (const time of times) expect(time).toMatch(/^\d+:\d\d$/);
    await open(addresses.cards);
    expect(await page.locator(".sheet").first().textContent()).not.toMatch(/\d:\d\d/);
  });

  it("say why fewer cards are on a page than wished", async () => {
    await atPaper("English", "A4");
    await open(`${addresses.cards}?cards=8&look=symbols`);
    await page.getByText(/cards on a page instead of 8/).waitFor();
    expect(await page.locator(".sheet").first().locator(".card").count()).toBeLessThan(8);
  });

  it("say who teaches whom in a lesson of the term, and who is in which team, in both languages", async () => {
    const groupId = addresses.cards.split("/").at(-2) ?? "";
    for (const [language, size] of [
      ["English", "A4"],
      ["Español", "Letter"],
    ] as const) {
      await atPaper(language, size);
      await open(`/print/pairs/${groupId}`);
      const rows = page.locator(".pairs-table tbody tr");
      await rows.first().waitFor();
      const pairs = (await rows.allTextContents()).flatMap(
        (row) => row.match(/[A-Z][a-z]+/g) ?? [],
      );
      expect(new Set(pairs).size).toBe(8);
      expect(await overflowing()).toEqual([]);
      await open(`/print/teams/${groupId}`);
      await page.locator(".teams-paper section").first().waitFor();
      const members = await page.locator(".teams-paper li").allTextContents();
      expect(members.toSorted()).toEqual(pairs.toSorted());
      expect(await overflowing()).toEqual([]);
    }
  });

  it("tell every family in its own language, with no percentage and nothing in statistics", async () => {
    await atPaper("English", "A4");
    await open(addresses.family);
    const sheets = page.locator(".sheet");
    expect(await sheets.count()).toBe(8);
    for (const words of await sheets.allTextContents()) {
      expect(words).not.toMatch(/%|percent|interval|average|trend|honest/i);
    }
    await expect
      .poll(async () => (await sheets.allTextContents()).join(" "))
      .toMatch(/Out of every ten times, the answer was “yes” about \w+ times/);
    const ofOtter = page.getByRole("region", { name: "About the page for Otter’s family" });
    await ofOtter.getByText("Español", { exact: true }).click();
    const spanish = page.locator(".sheet[lang='es']");
    await spanish.waitFor();
    expect(await spanish.textContent()).toMatch(/De cada diez preguntas/);
    expect(await page.locator(".sheet[lang='en']").count()).toBe(7);
    // As many words as may be written still leave it one page, on the shorter paper too.
    await atPaper("English", "Letter");
    await open(addresses.family);
    const words = "Otter ha trabajado con mucha calma. ".repeat(17).slice(0, 600);
    await ofOtter.getByRole("textbox").fill(words);
    await ofOtter.getByText("Saved.").waitFor();
    expect(await overflowing()).toEqual([]);
    const pdf = pagesOf((await page.pdf({ preferCSSPageSize: true })).toString("latin1"));
    expect(pdf.count).toBe(8);
    await page.reload();
    await spanish.getByText(words.trim().slice(0, 100)).waitFor();
    await atPaper("English", "A4");
    await open(addresses.family);
    await page.getByRole("switch", { name: "Otter" }).click({ force: true });
    await expect.poll(() => sheets.count()).toBe(7);
    expect((await sheets.allTextContents()).join(" ")).not.toContain("Otter");
    await page.reload();
    await sheets.first().waitFor();
    expect(await sheets.count()).toBe(7);
  });

  it("leave out of the support team's report whatever the meeting does without", async () => {
    await atPaper("English", "A4");
    await open(addresses.report);
    const heading = (name: string) => page.locator(".sheet").getByRole("heading", { name });
    await heading("Do the record and what adults saw match?").waitFor();
    expect(await page.locator(".sheet").allTextContents()).not.toContain("honest");
    for (const part of ["Match of record and checks", "How the numbers were made"]) {
      await page.getByRole("switch", { name: part }).click({ force: true });
      await page.getByRole("switch", { name: part, checked: false }).waitFor();
    }
    await expect.poll(() => heading("How the numbers were made").count()).toBe(0);
    expect(await heading("Do the record and what adults saw match?").count()).toBe(0);
    await heading("What we agreed").waitFor();
    await page.reload();
    await heading("What we agreed").waitFor();
    expect(await heading("How the numbers were made").count()).toBe(0);
  });

  it("show a child their own sessions and goal and nobody else, on a screen and on half a sheet", async () => {
    await atPaper("English", "A4");
    await page.goto(`${origin}${addresses.report.replace("/print/report", "/progress")}`);
    const show = page.getByRole("link", { name: /^Show it to \w/ });
    const name = ((await show.textContent()) ?? "").replace("Show it to ", "");
    await show.click();
    const own = page.getByRole("article", { name: `${name}’s own record` });
    await own
      .getByText(/^\d+ of \d+ yes$/)
      .first()
      .waitFor();
    await own.getByText(/^My goal: \d+ out of every 10$/).waitFor();
    const words = (await page.locator("body").textContent()) ?? "";
    for (const other of ["Pine", "Otter", "Comet", "Juniper"].filter((one) => one !== name)) {
      expect(words).not.toContain(other);
    }
    expect(words).not.toMatch(/interval|trend|average|wrong/i);
    await page.getByRole("link", { name: "Print on half a page" }).click();
    await page.locator(".sheet .own").waitFor();
    expect(await page.locator(".sheet .own").count()).toBe(1);
    const [sheet, half] = await Promise.all([
      page.locator(".sheet").boundingBox(),
      page.locator(".own").boundingBox(),
    ]);
    expect((half?.y ?? 0) + (half?.height ?? 0)).toBeLessThan(
      (sheet?.y ?? 0) + (sheet?.height ?? 0) / 2,
    );
    await page.goBack();
    await page.getByRole("link", { name: "Back" }).click();
    await page.getByRole("heading", { level: 1, name }).waitFor();
  });

  it("give one family its page from the student's own", async () => {
    await atPaper("English", "A4");
    await page.goto(`${origin}${addresses.report.replace("/print/report", "/progress")}`);
    await page.getByRole("link", { name: "Page for the family" }).click();
    await page.locator(".sheet").first().waitFor();
    expect(await page.locator(".sheet").count()).toBe(1);
  });

  it("watch six students at most, in turn", async () => {
    await atPaper("English", "A4");
    await open(addresses.observation);
    const rows = page.locator(".sheet tbody tr td:nth-child(2)");
    const names = await rows.allTextContents();
    expect(new Set(names).size).toBe(6);
    expect(names[6]).toBe(names[0]);
    await page.getByRole("switch", { name: "Heron" }).click({ force: true });
    await page.getByText("One person can follow 6 students.").waitFor();
    expect(new Set(await rows.allTextContents()).size).toBe(6);
  });
});

describe("a session under way", () => {
  it("keeps sounding in the window that looks at print pages", async () => {
    const folder = temporaryFolder();
    silentClass(folder.path, ["Ash", "Birch"], { plan: { cueing: "sound" } });
    // A cue every four real seconds.
    const app = await launchLoopback({ dataFolder: folder.path, args: ["--speed", "15"] });
    try {
      const page = await app.page();
      const strip = page.getByRole("region", { name: "Teacher’s strip" });
      const cues = strip.locator(".strip-fact", { hasText: "Cues" }).locator(".strip-value");
      await page
        .getByRole("button", { name: /^Start a session/ })
        .first()
        .click();
      await page.getByRole("button", { name: "Start the session" }).click();
      await strip.waitFor();
      const session = new URL(page.url()).pathname;
      await page.getByRole("link", { name: "Groups" }).click();
      await page.getByRole("link", { name: "Room 12" }).first().click();
      await page.getByRole("link", { name: /^Cards to print/ }).click();
      await page.locator(".sheet").first().waitFor();
      const fromMs = Date.now();
      await page.waitForTimeout(9_000);
      const toMs = Date.now();
      for (let steps = 0; steps < 3; steps++) await page.goBack();
      expect(new URL(page.url()).pathname).toBe(session);
      await strip.waitFor();
      await expect.poll(async () => Number(await cues.textContent())).toBeGreaterThanOrEqual(2);
      await app.kill();
      const meanwhile = settledCues(folder.path).filter(({ atMs }) => atMs > fromMs && atMs < toMs);
      expect(meanwhile.length).toBeGreaterThanOrEqual(2);
      expect(new Set(meanwhile.map(({ how }) => how))).toEqual(new Set(["sound"]));
    } finally {
      await app.kill();
      folder.remove();
    }
  });
});
