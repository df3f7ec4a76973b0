import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import Database from "better-sqlite3";
import type { Page } from "playwright";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { contentPolicy } from "../../electron/host/content-policy.ts";
import { newestVersion } from "../../electron/store/file/migrate.ts";
import { openStore } from "../../electron/store/store.ts";
import type { PdfRequest } from "../../shared/api/shell.ts";
import { type App, launchApp, launchLoopback, startAgain, waitFor } from "./support/launch.ts";
import { call, openPort, portCloses, quietPage } from "./support/port-calls.ts";
import { electronProgram } from "./support/programs.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

declare global {
  // In the main process, where these tests note what would have been shown to a person.
  var openedOutside: string[];
  var questions: string[];
}

let temporary: ReturnType<typeof temporaryFolder>;
let folder: string;
let app: App;

const open = async () => {
  temporary = temporaryFolder();
  folder = temporary.path;
  app = await launchApp({ dataFolder: folder });
};
const close = async () => {
  await app.kill();
  temporary.remove();
};
/** Tests that leave the app as they found it share one. */
const oneAppForAll = () => {
  beforeAll(open);
  afterAll(close);
};
const oneAppForEach = () => {
  beforeEach(open);
  afterEach(close);
};

/** From now on, outside addresses are noted instead of opened. */
const noteOpened = () =>
  app.evaluate((electron) => {
    globalThis.openedOutside = [];
    electron.shell.openExternal = async (address) => {
      globalThis.openedOutside.push(address);
    };
  }, null);
const opened = () => app.evaluate(() => globalThis.openedOutside, null);

/** Starts a session of an invented group and resolves to its id. */
async function startSession(page: Page): Promise<string> {
  const { id: groupId } = await call<{ id: string }>(page, "groups/create", {
    name: "Invented group",
    target: "",
  });
  await call(page, "transfer/importStudents", {
    groupId,
    rows: ["Ab", "Cd"].map((name) => ({ name, picture: null, target: "" })),
  });
  const plans = await call<{ id: string }[]>(page, "plans/list", { groupId });
  const { id } = await call<{ id: string }>(page, "sessions/start", {
    groupId,
    planId: plans[0]?.id,
    kind: "seatwork",
    seed: "shell",
  });
  return id;
}

/** How many of the system's sleep blockers are held. */
const blockersHeld = () =>
  app.evaluate(
    ({ powerSaveBlocker }) =>
      Array.from({ length: 20 }, (_, id) => powerSaveBlocker.isStarted(id)).filter(Boolean).length,
    null,
  );

describe("the window", () => {
  oneAppForAll();

  it("shows the page under the app's own address", async () => {
    const page = await app.page();
    expect(page.url()).toBe(app.address("/"));
    await page.locator("main").first().waitFor();
  });

  it("gives the page a few frozen functions and nothing of Node or Electron", async () => {
    const page = await app.page();
    const seen = await page.evaluate(() => ({
      node: [typeof Reflect.get(window, "require"), typeof Reflect.get(window, "process")],
      exposed: Object.keys(window.pebblechime ?? {}).sort(),
      frozen: Object.isFrozen(window.pebblechime),
    }));
    expect(seen.node).toEqual(["undefined", "undefined"]);
    expect(seen.exposed).toEqual(["chooseFolder", "openPort", "openWindow", "platform", "savePdf"]);
    expect(seen.frozen).toBe(true);
  });

  it("serves the strict content policy, and the browser obeys it", async () => {
    const page = await app.page();
    const policy = await page.evaluate(async () =>
      (await fetch("/")).headers.get("content-security-policy"),
    );
    expect(policy).toBe(contentPolicy);
    const ran = await page.evaluate(async () => {
      const script = document.createElement("script");
      // As a text node: the policy forbids every shorter way at once.
      script.append("window.inlineRan = true");
      document.head.append(script);
      const fetched = await fetch("https://example.org/").then(
        () => true,
        () => false,
      );
      return { inline: Reflect.has(window, "inlineRan"), fetched };
    });
    expect(ran).toEqual({ inline: false, fetched: false });
  });

  it("gives out no file from outside the page's folder", async () => {
    const page = await app.page();
    const statuses = await page.evaluate(() =>
      Promise.all(
        ["/..%2felectron%2fmain.js", "/%2e%2e/package.json", "/missing.js"].map(
          async (path) => (await fetch(path)).status,
        ),
      ),
    );
    expect(statuses).toEqual([404, 404, 404]);
  });

  it("stays in the app: an outside address opens in the system, a doubtful one nowhere", async () => {
    const page = await app.page();
    await noteOpened();
    for (const address of [
      "https://example.org/help",
      "http://127.0.0.1:9/",
      "ftp://example.org/",
    ]) {
      await page.evaluate((target) => {
        location.href = target;
      }, address);
      await pause(300);
      expect(page.url()).toBe(app.address("/"));
    }
    expect(await opened()).toEqual(["https://example.org/help"]);
    expect(await page.evaluate(() => document.readyState)).toBe("complete");
  });

  it("opens no window for a page; links out go to the system", async () => {
    const page = await app.page();
    await noteOpened();
    await page.evaluate(() => {
      window.open("https://example.org/more");
      window.open("http://example.org/plain");
      window.open("mailto:team@example.org");
    });
    await waitFor(async () => (await opened()).length >= 2 || null, "the outside addresses");
    await pause(300);
    expect(await opened()).toEqual(["https://example.org/more", "mailto:team@example.org"]);
    const count = await app.evaluate((e) => e.BrowserWindow.getAllWindows().length, null);
    expect([count, app.windows().length]).toEqual([1, 1]);
  });

  it("may sound the chime although nobody has touched the page", async () => {
    await app.page();
    const state = await app.evaluate(async ({ BrowserWindow }) => {
      const contents = BrowserWindow.getAllWindows()[0]?.webContents;
      // Loading anew takes back what tools did to the page; this call counts as no one's gesture.
      const loaded = new Promise<null>((resolve) =>
        contents?.once("did-finish-load", () => resolve(null)),
      );
      contents?.reload();
      await loaded;
      return contents?.executeJavaScript(`new Promise((resolve) => {
        const context = new AudioContext();
        context.onstatechange = () => resolve(context.state);
        setTimeout(() => resolve(context.state), 5000);
      })`);
    }, null);
    expect(state).toBe("running");
  });

  it("is denied the permissions that no screen needs", async () => {
    const page = await app.page();
    const states = await page.evaluate(async () => {
      const names = ["geolocation", "notifications", "camera", "microphone", "midi"] as const;
      const asked = names.map(async (name) => (await navigator.permissions.query({ name })).state);
      const media = navigator.mediaDevices.getUserMedia({ audio: true }).then(
        () => "granted",
        () => "denied",
      );
      return Promise.all([...asked, media]);
    });
    expect(new Set(states)).toEqual(new Set(["denied"]));
  });
});

describe("the port", () => {
  oneAppForAll();

  it("reaches the desktop side", async () => {
    const info = await call<{ version: string; host: string }>(await quietPage(app), "app/info");
    const { version } = JSON.parse(readFileSync("package.json", "utf8"));
    expect(info).toMatchObject({ host: "electron", version });
  });

  it("is one a frame: asking again closes the one before", async () => {
    const page = await quietPage(app);
    const first = await openPort(page);
    const closing = portCloses(page, first);
    await openPort(page);
    expect(await closing).toBe(true);
    expect(await call(page, "app/settings")).toHaveProperty("language");
  });

  it("is made anew after a reload, and after the page crashed", async () => {
    const page = await quietPage(app);
    await call(page, "app/info");
    await page.reload();
    expect(await call(page, "app/info")).toHaveProperty("version");
    const loads = await app.evaluate(async ({ BrowserWindow }) => {
      const [window] = BrowserWindow.getAllWindows();
      if (!window) throw new Error("No window.");
      const again = new Promise<null>((resolve) =>
        window.webContents.once("did-finish-load", () => resolve(null)),
      );
      window.webContents.forcefullyCrashRenderer();
      await again;
      return window.webContents.executeJavaScript("document.readyState");
    }, null);
    expect(["interactive", "complete"]).toContain(loads);
  });
});

describe("a second start", () => {
  oneAppForAll();

  it("shows the window that is there and ends", async () => {
    await app.page();
    await app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.minimize(), null);
    expect(await startAgain({ dataFolder: folder })).toBe(0);
    const restored = () =>
      app.evaluate(({ BrowserWindow }) => !BrowserWindow.getAllWindows()[0]?.isMinimized(), null);
    await waitFor(async () => (await restored()) || null, "the window to come back");
  });

  it("that names a backup shows what restoring it would lose", async () => {
    // A page of the app asks for a port of its own, which closes the test's when it comes later.
    const page = await quietPage(app);
    await call(page, "groups/create", { name: "Invented group", target: "" });
    const stick = temporaryFolder();
    const { path } = await call<{ path: string }>(page, "care/copyTo", { folder: stick.path });
    await page.goto(app.address("/"));
    expect(await startAgain({ dataFolder: folder, args: [path] })).toBe(0);
    const shown = await app.page();
    await shown
      .getByText(/, from elsewhere$/)
      .first()
      .waitFor();
    await shown.getByText("No session, student or entry would be lost.").waitFor();
    stick.remove();
  });

  it("of the loopback host is refused in one sentence while the window is open", async () => {
    await app.page();
    await expect(launchLoopback({ dataFolder: folder })).rejects.toThrow(/already running/);
  });
});

describe("while a session is live", () => {
  oneAppForEach();

  it("the computer is kept awake, and let go when it ends", async () => {
    const page = await quietPage(app);
    expect(await blockersHeld()).toBe(0);
    const sessionId = await startSession(page);
    await waitFor(async () => (await blockersHeld()) === 1 || null, "the sleep blocker");
    await call(page, "sessions/end", { sessionId });
    await waitFor(async () => (await blockersHeld()) === 0 || null, "the blocker to be let go");
  });

  it("sleep reaches the conductor: the session stands still until the teacher resumes it", async () => {
    const page = await quietPage(app);
    await startSession(page);
    await app.power("suspend");
    await app.power("resume");
    const status = async () => (await call<{ status: string }>(page, "sessions/open")).status;
    await waitFor(async () => (await status()) === "paused" || null, "the session to pause", 5_000);
  });

  it("closing asks first, and keeps the session when it is closed", async () => {
    const page = await quietPage(app);
    await startSession(page);
    const answerWith = (response: number) =>
      app.evaluate((electron, given) => {
        globalThis.questions = [];
        electron.dialog.showMessageBox = async (...words: unknown[]) => {
          globalThis.questions.push(JSON.stringify(words.at(-1)));
          return { response: given, checkboxChecked: false };
        };
      }, response);
    await answerWith(0);
    await app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.close(), null);
    await waitFor(
      async () => (await app.evaluate(() => globalThis.questions.length, null)) === 1 || null,
      "the question",
    );
    await pause(200);
    expect(app.windows()).toHaveLength(1);
    await answerWith(1);
    await app.close();
    expect(await app.ended).toBe(0);

    app = await launchApp({ dataFolder: folder });
    const left = await call<{ status: string }>(await quietPage(app), "sessions/open");
    expect(left.status).toBe("interrupted");
  });
});

describe("what the page asks of the shell", () => {
  oneAppForAll();

  it("writes a PDF of the page where the teacher says, on the paper asked for", async () => {
    const page = await app.page();
    const file = join(folder, "report.pdf");
    await app.evaluate((electron, filePath) => {
      electron.dialog.showSaveDialog = async () => ({ canceled: false, filePath });
    }, file);
    // PDF units are 1/72 inch: A4 is 210 x 297 mm, Letter 8.5 x 11 inches.
    const papers = [
      { paper: "A4", size: [595.28, 841.89] },
      { paper: "Letter", size: [612, 792] },
    ] as const;
    for (const { paper, size } of papers) {
      const outcome = await page.evaluate(
        (paper) => window.pebblechime?.savePdf({ name: "Report", paper }),
        paper,
      );
      expect(outcome).toEqual({ kind: "saved", file });
      const pdf = readFileSync(file, "latin1");
      expect(pdf.startsWith("%PDF-")).toBe(true);
      const box = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf);
      expect(Math.abs(Number(box?.[1]) - size[0])).toBeLessThan(1);
      expect(Math.abs(Number(box?.[2]) - size[1])).toBeLessThan(1);
    }
  });

  it("writes the PDF that the menu asks for, named after the page", async () => {
    const page = await app.page();
    const file = join(folder, "menu.pdf");
    await app.evaluate((electron, filePath) => {
      globalThis.questions = [];
      electron.dialog.showSaveDialog = async (...given: unknown[]) => {
        globalThis.questions.push(JSON.stringify(given.at(-1)));
        return { canceled: false, filePath };
      };
    }, file);
    // The screen names itself a moment after it was loaded.
    const titles = async () => [
      await page.title(),
      await app.evaluate((e) => e.BrowserWindow.getAllWindows()[0]?.webContents.getTitle(), null),
    ];
    const title = await waitFor(async () => {
      const [shown, known] = await titles();
      return shown !== "Pebblechime" && shown === known ? shown : null;
    }, "the screen's title");
    await app.chooseMenu("save-pdf");
    await waitFor(() => existsSync(file) || null, "the PDF");
    const asked = await app.evaluate(() => globalThis.questions.join(), null);
    expect(asked).toContain(`${title}.pdf`);
  });

  it("has the folder of a copy chosen in the system's dialog, and takes a closed one for no choice", async () => {
    const page = await app.page();
    await page.getByRole("link", { name: "Settings" }).click();
    const chosen = page.getByLabel("Folder on the drive or disk, with its full path");
    const choose = page.getByRole("button", { name: "Choose a folder" });
    const answer = (filePaths: string[]) =>
      app.evaluate((electron, paths) => {
        electron.dialog.showOpenDialog = async () => ({
          canceled: paths.length === 0,
          filePaths: paths,
        });
      }, filePaths);
    await answer([folder]);
    await choose.click();
    await expect.poll(() => chosen.inputValue()).toBe(folder);
    await answer([]);
    await choose.click();
    expect(await chosen.inputValue()).toBe(folder);
    await page.getByRole("button", { name: "Copy now" }).click();
    await page.getByText("Copied and checked:").waitFor();
  });

  it("answers a wrong request with a sentence, and a closed dialog with a cancellation", async () => {
    const page = await app.page();
    await app.evaluate((electron) => {
      electron.dialog.showSaveDialog = async () => ({ canceled: true, filePath: "" });
    }, null);
    const outcomes = await page.evaluate(async () => {
      const bridge = window.pebblechime;
      // A page that has gone wrong may send anything.
      const wrong = { name: "x", paper: "A0" } as unknown as PdfRequest;
      return [
        await bridge?.savePdf(wrong),
        await bridge?.savePdf({ name: "a".repeat(500), paper: "A4" }),
        await bridge?.savePdf({ name: "Report", paper: "A4" }),
      ];
    });
    expect(outcomes.map((outcome) => outcome?.kind)).toEqual(["failed", "failed", "cancelled"]);
  });
});

describe("the shell", () => {
  oneAppForEach();

  it("opens the class board once, on the second display when there is one", async () => {
    const page = await app.page();
    await app.evaluate(({ screen }) => {
      const [first] = screen.getAllDisplays();
      if (first === undefined) throw new Error("No display.");
      const area = { x: 4000, y: 0, width: 1920, height: 1080 };
      const second = { ...first, id: first.id + 1, bounds: area, workArea: area };
      screen.getAllDisplays = () => [first, second];
    }, null);
    const outcome = await page.evaluate(() => window.pebblechime?.openWindow({ name: "board" }));
    expect(outcome).toEqual({ kind: "opened", display: "second" });
    await page.evaluate(() => window.pebblechime?.openWindow({ name: "board" }));
    await waitFor(() => app.windows().length === 2 || null, "the board");
    const boards = app.windows().filter((window) => window.url() === app.address("/board"));
    expect(boards).toHaveLength(1);
    const bounds = await app.evaluate(
      ({ BrowserWindow }) => BrowserWindow.getAllWindows().map((window) => window.getBounds().x),
      null,
    );
    expect(bounds).toContain(4000);
  });

  it("opens the tiles and a second observer's page beside, and no page it does not know", async () => {
    const page = await app.page();
    const sessionId = "01a21340-4a18-74cf-ba5d-5017cfe80967";
    await page.evaluate(() => window.pebblechime?.openWindow({ name: "tiles" }));
    await page.evaluate(
      (id) => window.pebblechime?.openWindow({ name: "second-observer", sessionId: id }),
      sessionId,
    );
    await waitFor(() => app.windows().length === 3 || null, "the windows beside");
    const shown = app.windows().map((window) => window.url());
    expect(shown).toContain(app.address("/tiles"));
    expect(shown).toContain(app.address(`/session/${sessionId}/observe-second`));
    const refused = await page.evaluate(() =>
      // What a page that was taken over might ask for.
      window.pebblechime?.openWindow(JSON.parse('{ "name": "settings" }')),
    );
    expect(refused).toMatchObject({ kind: "failed" });
    expect(app.windows()).toHaveLength(3);
  });

  it("words the menu in the language that was chosen", async () => {
    const page = await quietPage(app);
    const label = () =>
      app.evaluate(
        ({ Menu }) => Menu.getApplicationMenu()?.getMenuItemById("open-board")?.label,
        null,
      );
    expect(await label()).toBe("Open the class board");
    await call(page, "app/saveSettings", { language: "es" });
    await waitFor(async () => (await label())?.startsWith("Abrir") || null, "the Spanish menu");
    await app.chooseMenu("open-board");
    await waitFor(() => app.windows().length === 2 || null, "the board");
  });

  it("keeps the window's place", async () => {
    await app.page();
    const place = { x: 40, y: 30, width: 1000, height: 640 };
    await app.evaluate(
      ({ BrowserWindow }, given) => BrowserWindow.getAllWindows()[0]?.setBounds(given),
      place,
    );
    await app.close();
    app = await launchApp({ dataFolder: folder });
    await app.page();
    const bounds = await app.evaluate(
      ({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.getBounds(),
      null,
    );
    expect(bounds).toEqual(place);
  });

  it("killed without warning, opens again with what was stored", async () => {
    const page = await quietPage(app);
    await call(page, "groups/create", { name: "Invented group", target: "" });
    await app.kill();
    app = await launchApp({ dataFolder: folder });
    const groups = await call<{ name: string }[]>(await quietPage(app), "groups/list", {
      archived: false,
    });
    expect(groups.map(({ name }) => name)).toEqual(["Invented group"]);
  });

  it("gives up on a page that crashes again and again, with a word to the teacher", async () => {
    await quietPage(app);
    await app.evaluate(async ({ BrowserWindow, dialog }) => {
      globalThis.questions = [];
      dialog.showErrorBox = (_title, content) => {
        globalThis.questions.push(content);
        console.error(`told: ${content}`);
      };
      const contents = BrowserWindow.getAllWindows()[0]?.webContents;
      for (let crash = 1; crash <= 4; crash++) {
        // A load that was still under way must not pass for the one after the crash.
        const happened = new Promise<null>((resolve) =>
          contents?.once("render-process-gone", () => {
            if (crash === 4) resolve(null);
            else contents.once("did-finish-load", () => resolve(null));
          }),
        );
        contents?.forcefullyCrashRenderer();
        await happened;
      }
    }, null);
    expect(await app.ended).toBe(0);
    expect(app.output()).toMatch(/told: .*Everything recorded is kept/);
  });

  // In Electron a dialog before the window waits for a person.
  it.runIf(electronProgram() === null)(
    "puts the newest backup in the place of damaged data when the teacher says so",
    async () => {
      await app.close();
      // Closing made a backup of today; this one is of another day, and newer.
      const later = Date.now() + 2 * 86_400_000;
      const store = openStore({ folder, now: () => later });
      const made = { name: "Invented group", target: "", isSample: false };
      store.groups.create(made, later);
      store.backUpIfDue();
      store.close();
      const file = join(folder, "pebblechime.sqlite");
      writeFileSync(file, readFileSync(file).fill(7, 4_096, 40_960));
      app = await launchApp({ dataFolder: folder, firstButton: 0 });
      const groups = await call<{ name: string }[]>(await quietPage(app), "groups/list", {
        archived: false,
      });
      expect(groups.map(({ name }) => name)).toEqual(["Invented group"]);
      expect(readdirSync(folder).some((name) => name.includes("damaged"))).toBe(true);
    },
  );

  it.runIf(electronProgram() === null).each([
    {
      what: "the data cannot be opened",
      spoil: (file: string) =>
        writeFileSync(file, "no database at all, but long enough to be looked at".repeat(100)),
      sentence: /\[dialog\].*(damaged|another program)/,
    },
    {
      what: "a newer version saved the data",
      spoil: (file: string) => {
        const database = new Database(file);
        database.pragma(`user_version = ${newestVersion + 1}`);
        database.close();
      },
      sentence: /\[dialog\].*saved by a newer version of Pebblechime\. Install the newest version/,
    },
  ])("says what to do when $what, and opens no window", async ({ spoil, sentence }) => {
    await app.close();
    const file = join(folder, "pebblechime.sqlite");
    spoil(file);
    const before = readFileSync(file);
    const said = await launchApp({ dataFolder: folder }).then(
      async (started) => `ended with ${await started.ended}: ${started.output()}`,
      String,
    );
    expect(said).toMatch(sentence);
    expect(said).not.toContain("ended with 0");
    expect(readFileSync(file)).toEqual(before);
  });
});
