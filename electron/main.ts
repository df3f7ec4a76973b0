import { mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import {
  app,
  type BrowserWindow,
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
  type PdfOutcome,
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

/** How the shell stands; it changes as long as the app runs. */
interface ShellNow {
  language: Language;
  /** Whether a session goes on. */
  live: boolean;
  leaving: boolean;
  /** Whether the class screen is shown. */
  classShown: boolean;
}

async function run(desktop: Desktop, folder: string): Promise<void> {
  const api = callDirectly(desktop.handlers);
  const now: ShellNow = {
    language: languageOf(app.getLocale()),
    live: false,
    leaving: false,
    classShown: false,
  };

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
    now.live = running;
    wakefulness.setLive(running);
  });
  hearSystem(powerMonitor, desktop);

  const askToLeave = leaveAsker(now, () => windows.main);
  const windows = new AppWindows({
    preload,
    stateFile: join(app.getPath("userData"), "place.json"),
    openOutside: (address) => void shell.openExternal(address).catch(reportOf("Opening a link")),
    onPageLeft: (frame) => ports.close(frame),
    onBoardShown: (shown) => wakefulness.setBoardShown(shown),
    onClassShown: (shown) => {
      now.classShown = shown;
      setMenu();
    },
    onBroken: () => {
      dialog.showErrorBox("Pebblechime", shellWords[now.language].broken);
      now.leaving = true;
      app.quit();
    },
    mayClose: () => {
      if (!now.live || now.leaving) return true;
      void askToLeave();
      return false;
    },
    isLeaving: () => now.leaving,
  });

  const toPdf = async (request: PdfRequest, window = windows.main) => {
    if (window === null) throw new Error("There is no window to print.");
    const desk = { dialog, folder: app.getPath("documents"), words: shellWords[now.language] };
    return savePdf(window, request, desk);
  };

  answerPages(windows, ports, now, toPdf);

  const setMenu = () => {
    const template = menuTemplate(shellWords[now.language], process.platform, {
      openBoard: () =>
        void windows.openBeside({ name: "board" }).catch(reportOf("Opening the board")),
      print: () => windows.main?.webContents.print({ printBackground: true }),
      savePdf: () => void savePage().catch(reportOf("Saving a PDF")),
      openDataFolder: () => void shell.openPath(folder),
      classShown: now.classShown,
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
      now.language = (await api.app.settings()).language;
      setMenu();
    }
  }

  closeAtTheEnd(desktop, ports, folder);
  app.on("window-all-closed", () => app.quit());
  app.on("second-instance", (_event, argv, from) => {
    windows.focusMain();
    askedBackup.ask(backupIn(argv, from, app.isPackaged));
  });

  const pageOfAsked = () => askedPage(api, now);
  async function showAsked(): Promise<void> {
    const page = await pageOfAsked();
    if (page !== null) await windows.showInMain(page).catch(reportOf("Showing a backup"));
  }

  limitPermissions(session.defaultSession);
  serveApp(protocol, appFiles(appFolder));
  now.language = (await api.app.settings()).language;
  setMenu();
  void followLanguage().catch(reportOf("Following the language"));
  await windows.openMain((await pageOfAsked()) ?? "/");
  askedBackup.follow(() => void showAsked());
}

/** Asks, once at a time, whether to leave a session that goes on. */
function leaveAsker(now: ShellNow, mainWindow: () => BrowserWindow | null) {
  let asking = false;
  return async function askToLeave(): Promise<void> {
    const window = mainWindow();
    if (asking || window === null) return;
    asking = true;
    const words = shellWords[now.language];
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
    now.leaving = true;
    app.quit();
  };
}

/** What pages may ask of the shell. */
function answerPages(
  windows: AppWindows,
  ports: Ports,
  now: ShellNow,
  toPdf: (request: PdfRequest, window: BrowserWindow | null) => Promise<PdfOutcome>,
): void {
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
      title: shellWords[now.language].chooseFolder,
      properties: ["openDirectory", "createDirectory"],
    });
    const [folder] = filePaths;
    return canceled || folder === undefined ? { kind: "cancelled" } : { kind: "chosen", folder };
  });
  answerAdult(channels.savePdf, pdfRequestSchema, ({ sender }, request) =>
    toPdf(request, windows.windowOf(sender.id)),
  );
}

/** All is written and closed before the app is gone. */
function closeAtTheEnd(desktop: Desktop, ports: Ports, folder: string): void {
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
}

/** Takes the backup among the kept ones; resolves to the page that shows it, null when there is none. */
async function askedPage(
  api: ReturnType<typeof callDirectly>,
  now: ShellNow,
): Promise<`/${string}` | null> {
  const path = askedBackup.take();
  if (path === null) return null;
  try {
    return restorePage((await api.care.bring({ path })).name);
  } catch (error) {
    reportOf("Opening a backup")(error);
    const words = shellWords[now.language];
    const why = now.live ? words.backupInSession : words.backupUnreadable;
    dialog.showErrorBox(words.backupNotOpened, why);
    return null;
  }
}

/** Errors are logged by kind only: a message may quote a child's name. */
function reportOf(what: string): (error: unknown) => void {
  return (error) => console.error(`${what} failed: ${error instanceof Error ? error.name : error}`);
}
