import { mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import {
  app,
  dialog,
  ipcMain,
  Menu,
  MessageChannelMain,
  powerMonitor,
  powerSaveBlocker,
  protocol,
  session,
  shell,
} from "electron";
import { regionPaper } from "../shared/api/region-paper.ts";
import {
  nothingAskedSchema,
  type PdfRequest,
  pdfRequestSchema,
  windowRequestSchema,
} from "../shared/api/shell.ts";
import { appFiles } from "./host/app-files.ts";
import { parseArguments, type StartArguments } from "./host/arguments.ts";
import { callDirectly, servePort } from "./host/carrier.ts";
import { classLines } from "./host/class-line.ts";
import { dataFolder } from "./host/data-folder.ts";
import { type Desktop, openDesktop } from "./host/desktop.ts";
import { seatsHosting } from "./host/seats-hosting.ts";
import { withoutWords } from "./host/without-words.ts";
import { timing } from "./loopback/timing.ts";
import { systemClock } from "./services/base/clock.ts";
import { channels } from "./shell/channels.ts";
import { openGate } from "./shell/gate.ts";
import { menuTemplate } from "./shell/menu.ts";
import { AskedBackup, backupIn, restorePage } from "./shell/opened-backup.ts";
import { ownArguments } from "./shell/own-arguments.ts";
import { limitPermissions } from "./shell/permissions.ts";
import { Ports } from "./shell/ports.ts";
import { hearSystem, Wakefulness } from "./shell/power.ts";
import { savePdf } from "./shell/printing.ts";
import { declareAppScheme, serveApp } from "./shell/protocol.ts";
import { startProblem } from "./shell/start-problem.ts";
import { type Language, languageOf, shellWords } from "./shell/words.ts";
import { removeRunning, restoreBackup, writeRunning } from "./store/store.ts";
import { AppWindows } from "./window.ts";

const appFolder = join(import.meta.dirname, "..", "app");
const seatsFolder = join(import.meta.dirname, "..", "seats");
const preload = join(import.meta.dirname, "preload.cjs");

app.setName("Pebblechime");
app.enableSandbox();
declareAppScheme(protocol);
// The chime must sound although the teacher has not touched the page since it was loaded.
app.commandLine.appendSwitch("autoplay-policy", "no-user-gesture-required");

const askedBackup = new AskedBackup();
// On macOS the system can ask before anything else is there.
app.on("open-file", (event, path) => {
  event.preventDefault();
  askedBackup.ask(path);
});

try {
  begin(parseArguments(ownArguments(process.argv, app.isPackaged), true));
} catch (error) {
  app.whenReady().then(() => giveUp(error));
}

/** One app a data folder: a second start shows the first one's window and goes. */
function begin(start: StartArguments): void {
  const folder = dataFolder(start.data);
  if (start.backup !== null) askedBackup.ask(resolve(start.backup));
  const profile = join(folder, "window");
  mkdirSync(profile, { recursive: true, mode: 0o700 });
  app.setPath("userData", profile);
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return;
  }
  app.whenReady().then(() => open(folder, start).catch(giveUp));
}

async function open(folder: string, start: StartArguments): Promise<void> {
  const step = timing(start.timing);
  step("Electron ready");
  const desktop = await openData(folder, start);
  if (desktop === null) return;
  step("data opened");
  writeRunning(folder, { host: "electron", address: null, joinSecret: null });
  await run(desktop, folder);
  step("page loaded");
}

/** The opened data, or null when it cannot be opened and the teacher chose to leave. */
async function openData(folder: string, start: StartArguments): Promise<Desktop | null> {
  const { sample, speed } = start;
  const clock = systemClock(speed);
  try {
    return await openDesktop({
      folder,
      clock,
      host: "electron",
      version: app.getVersion(),
      sample,
      speed,
      seats: seatsHosting(start, seatsFolder),
    });
  } catch (error) {
    const { backup } = startProblem(error, languageOf(app.getLocale()));
    if (backup === null || !(await wantsBackup(error))) throw error;
    restoreBackup(folder, backup, clock.wallMs());
    return openData(folder, start);
  }
}

async function wantsBackup(error: unknown): Promise<boolean> {
  const language = languageOf(app.getLocale());
  const words = shellWords[language];
  const { response } = await dialog.showMessageBox({
    type: "error",
    title: "Pebblechime",
    message: words.startFailed,
    detail: startProblem(error, language).message,
    buttons: [words.restoreBackup, words.leave],
    defaultId: 0,
    cancelId: 1,
  });
  if (response === 1) app.exit(1);
  return response === 0;
}

/** Nothing is open yet, so there is nothing to lose: say what to do, and end. */
function giveUp(error: unknown): void {
  const language = languageOf(app.getLocale());
  console.error(withoutWords(error));
  dialog.showErrorBox(shellWords[language].startFailed, startProblem(error, language).message);
  app.exit(1);
}

async function run(desktop: Desktop, folder: string): Promise<void> {
  const api = callDirectly(desktop.handlers);
  let language: Language = languageOf(app.getLocale());
  let live = false;
  let leaving = false;
  let classShown = false;

  const forClass = classLines(desktop.handlers);
  const ports = new Ports(
    () => new MessageChannelMain(),
    (port, frame) =>
      servePort(port, windows.isClassFrame(frame) ? classApi(frame) : desktop.handlers),
  );
  const classApi = (frame: number) =>
    forClass(() => {
      // After the answer has left.
      setImmediate(() => windows.leaveClass(frame));
      return null;
    });
  const wakefulness = new Wakefulness(powerSaveBlocker);
  desktop.onLive((running) => {
    live = running;
    wakefulness.setLive(running);
  });
  hearSystem(powerMonitor, desktop);

  const windows = new AppWindows({
    preload,
    stateFile: join(app.getPath("userData"), "place.json"),
    openOutside: (address) => void shell.openExternal(address).catch(reportOf("Opening a link")),
    onPageLeft: (frame) => ports.close(frame),
    onBoardShown: (shown) => wakefulness.setBoardShown(shown),
    onClassShown: (shown) => {
      classShown = shown;
      setMenu();
    },
    onBroken: () => {
      dialog.showErrorBox("Pebblechime", shellWords[language].broken);
      leaving = true;
      app.quit();
    },
    mayClose: () => {
      if (!live || leaving) return true;
      void askToLeave();
      return false;
    },
    isLeaving: () => leaving,
  });

  let asking = false;
  async function askToLeave(): Promise<void> {
    const window = windows.main;
    if (asking || window === null) return;
    asking = true;
    const words = shellWords[language];
    const { response } = await dialog.showMessageBox(window, {
      type: "question",
      title: "Pebblechime",
      message: words.leaveTitle,
      detail: words.leaveDetail,
      buttons: [words.leaveStay, words.leaveGo],
      defaultId: 0,
      cancelId: 0,
    });
    asking = false;
    if (response !== 1) return;
    leaving = true;
    app.quit();
  }

  const toPdf = async (request: PdfRequest, window = windows.main) => {
    if (window === null) throw new Error("There is no window to print.");
    const desk = { dialog, folder: app.getPath("documents"), words: shellWords[language] };
    return savePdf(window, request, desk);
  };

  const answer = openGate(ipcMain, (id) => windows.owns(id));
  answer(channels.openPort, nothingAskedSchema, ({ senderFrame }) => {
    ports.open(senderFrame);
    const isClass = windows.isClassFrame(senderFrame.frameTreeNodeId);
    return { kind: "opened", scope: isClass ? "class" : "teacher" };
  });
  // Children sit at the class screen's window: it opens no other and saves no file.
  const answerAdult = openGate(ipcMain, (id) => windows.owns(id) && !windows.isClass(id));
  answerAdult(channels.openWindow, windowRequestSchema, async (_event, request) => ({
    kind: "opened",
    display: await windows.openBeside(request),
  }));
  answerAdult(channels.chooseFolder, nothingAskedSchema, async ({ sender }) => {
    const window = windows.windowOf(sender.id);
    if (window === null) throw new Error("There is no window to ask in.");
    const { canceled, filePaths } = await dialog.showOpenDialog(window, {
      title: shellWords[language].chooseFolder,
      properties: ["openDirectory", "createDirectory"],
    });
    const [folder] = filePaths;
    return canceled || folder === undefined ? { kind: "cancelled" } : { kind: "chosen", folder };
  });
  answerAdult(channels.savePdf, pdfRequestSchema, ({ sender }, request) =>
    toPdf(request, windows.windowOf(sender.id)),
  );

  const setMenu = () => {
    const template = menuTemplate(shellWords[language], process.platform, {
      openBoard: () =>
        void windows.openBeside({ name: "board" }).catch(reportOf("Opening the board")),
      print: () => windows.main?.webContents.print({ printBackground: true }),
      savePdf: () => void savePage().catch(reportOf("Saving a PDF")),
      openDataFolder: () => void shell.openPath(folder),
      classShown,
    });
    Menu.setApplicationMenu(Menu.buildFromTemplate(template));
  };
  async function savePage(): Promise<void> {
    const { paper: chosen } = await api.app.settings();
    const { locale } = new Intl.DateTimeFormat().resolvedOptions();
    const paper = chosen === "region" ? regionPaper(locale) : chosen;
    const name = windows.main?.webContents.getTitle() || "Pebblechime";
    const outcome = await toPdf({ name, paper });
    if (outcome.kind === "failed") dialog.showErrorBox("Pebblechime", outcome.message);
  }
  async function followLanguage(): Promise<void> {
    for await (const { topics } of await api.app.changes({ after: null })) {
      if (!topics.includes("settings")) continue;
      language = (await api.app.settings()).language;
      setMenu();
    }
  }

  let closed = false;
  app.on("will-quit", (event) => {
    if (closed) return;
    event.preventDefault();
    ports.closeAll();
    removeRunning(folder);
    desktop
      .close()
      .catch(reportOf("Closing the data"))
      .finally(() => {
        closed = true;
        app.exit(0);
      });
  });
  app.on("window-all-closed", () => app.quit());
  app.on("second-instance", (_event, argv, from) => {
    windows.focusMain();
    askedBackup.ask(backupIn(argv, from, app.isPackaged));
  });

  /** Takes the backup among the kept ones; resolves to the page that shows it, null when there is none. */
  async function pageOfAsked(): Promise<`/${string}` | null> {
    const path = askedBackup.take();
    if (path === null) return null;
    try {
      return restorePage((await api.care.bring({ path })).name);
    } catch (error) {
      reportOf("Opening a backup")(error);
      const words = shellWords[language];
      const why = live ? words.backupInSession : words.backupUnreadable;
      dialog.showErrorBox(words.backupNotOpened, why);
      return null;
    }
  }
  async function showAsked(): Promise<void> {
    const page = await pageOfAsked();
    if (page !== null) await windows.showInMain(page).catch(reportOf("Showing a backup"));
  }

  limitPermissions(session.defaultSession);
  serveApp(protocol, appFiles(appFolder));
  language = (await api.app.settings()).language;
  setMenu();
  void followLanguage().catch(reportOf("Following the language"));
  await windows.openMain((await pageOfAsked()) ?? "/");
  askedBackup.follow(() => void showAsked());
}

/** Errors are logged by kind only: a message may quote a child's name. */
function reportOf(what: string): (error: unknown) => void {
  return (error) => console.error(`${what} failed: ${error instanceof Error ? error.name : error}`);
}
