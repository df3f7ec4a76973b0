import { BrowserWindow, type Display, nativeTheme, type Rectangle, screen } from "electron";
import { type WindowRequest, windowKey, windowPath } from "../shared/api/shell.ts";
import { appAddress } from "./shell/address.ts";
import { keepInsideApp } from "./shell/navigation.ts";
import {
  keepWindowState,
  placeWindow,
  readWindowState,
  smallestWindow,
} from "./shell/window-state.ts";

// The paper of the app's light and dark looks, so that nothing flashes before the page is drawn.
const paper = { light: "#f9f5ec", dark: "#1e1d1a" };

/** A page that crashes again and again within this time is not loaded another time. */
const crashSpanMs = 60_000;
const mostCrashes = 3;

export interface WindowOptions {
  /** The bundled preload. */
  readonly preload: string;
  /** Where the main window's place is kept. */
  readonly stateFile: string;
  /** Hands an allowed outside address to the system. */
  readonly openOutside: (address: string) => void;
  /** A page of the app has gone or is about to be replaced. */
  readonly onPageLeft: (frameTreeNodeId: number) => void;
  readonly onBoardShown: (shown: boolean) => void;
  readonly onClassShown: (shown: boolean) => void;
  /** A page crashed once too often to be loaded again. */
  readonly onBroken: () => void;
  /** Asked before the main window closes; false keeps it open. */
  readonly mayClose: () => boolean;
  /** Whether the app is on its way out, so that nothing may hold a window open. */
  readonly isLeaving: () => boolean;
}

interface WindowKind {
  readonly isMain: boolean;
  readonly isClass?: boolean;
}

/** The app's windows: the teacher's, and beside it the class board, the class screen, a second observer's page. */
export class AppWindows {
  readonly #options: WindowOptions;
  #main: BrowserWindow | null = null;
  readonly #beside = new Map<string, BrowserWindow>();
  /** By the frame that asks for ports; kept, because a frame cannot be asked once its page has gone. */
  readonly #classWindows = new Map<number, BrowserWindow>();

  constructor(options: WindowOptions) {
    this.#options = options;
  }

  get main(): BrowserWindow | null {
    return this.#main;
  }

  /** The window of ours whose contents have this id, or null. */
  windowOf(contentsId: number): BrowserWindow | null {
    const ours = [this.#main, ...this.#beside.values()];
    return ours.find((window) => window?.webContents.id === contentsId) ?? null;
  }

  /** Whether these contents belong to a window at which children sit, whatever they show. */
  isClass(contentsId: number): boolean {
    return [...this.#classWindows.values()].some(
      ({ webContents }) => webContents.id === contentsId,
    );
  }

  isClassFrame(frameTreeNodeId: number): boolean {
    return this.#classWindows.has(frameTreeNodeId);
  }

  /** The adult has taken the way out of this one. */
  leaveClass(frameTreeNodeId: number): void {
    this.#classWindows.get(frameTreeNodeId)?.destroy();
  }

  owns(contentsId: number): boolean {
    return this.windowOf(contentsId) !== null;
  }

  /** @param path of the page to begin with */
  async openMain(path: `/${string}` = "/"): Promise<void> {
    const kept = readWindowState(this.#options.stateFile);
    const window = this.#create(placeWindow(kept, displays()), { isMain: true });
    this.#main = window;
    if (kept?.maximized) window.once("show", () => window.maximize());
    keepWindowState(window, this.#options.stateFile);
    window.on("close", (event) => {
      if (!this.#options.mayClose()) event.preventDefault();
    });
    window.on("closed", () => {
      this.#main = null;
      for (const window of [...this.#beside.values()]) window.destroy();
    });
    await window.loadURL(appAddress(path));
  }

  /** Shows a page in the teacher's window, in place of whatever was there. */
  async showInMain(path: `/${string}`): Promise<void> {
    this.focusMain();
    await this.#main?.loadURL(appAddress(path));
  }

  /** A second start asks for the window that is there. */
  focusMain(): void {
    if (this.#main === null) return;
    if (this.#main.isMinimized()) this.#main.restore();
    this.#main.show();
    this.#main.focus();
  }

  /**
   * Shows a page in a window of its own. What the class looks at fills a second display when there is one;
   * the others can be dragged to wherever they are wanted. A window that is there comes forward.
   */
  async openBeside(request: WindowRequest): Promise<"second" | "only"> {
    const isBoard = request.name === "board";
    const isTiles = request.name === "tiles";
    const isClass = isBoard || isTiles;
    const fills = isBoard || (request.name === "tiles" && request.studentId === undefined);
    const second = fills ? secondDisplay(this.#main) : null;
    const where = second === null ? "only" : "second";
    const address = appAddress(windowPath(request));
    const key = windowKey(request);
    const there = this.#beside.get(key);
    if (there !== undefined) {
      // A second observer's window may still show an earlier session.
      if (there.webContents.getURL() !== address) await there.loadURL(address);
      there.focus();
      return where;
    }
    const window = this.#create(second?.workArea ?? placeWindow(null, displays()), {
      isMain: false,
      isClass,
    });
    this.#beside.set(key, window);
    if (isClass) this.#narrow(window);
    if (isTiles) this.#restMenu(window);
    if (isTiles && fills) this.#lock(window, where);
    if (isBoard && second !== null) window.setFullScreen(true);
    if (isBoard) this.#options.onBoardShown(true);
    window.on("closed", () => {
      this.#beside.delete(key);
      if (isBoard) this.#options.onBoardShown(false);
    });
    await window.loadURL(address);
    return where;
  }

  /** A window that children look at or sit at: its line opens nothing of the adult's, and it has no menu. */
  #narrow(window: BrowserWindow): void {
    const frame = window.webContents.mainFrame.frameTreeNodeId;
    this.#classWindows.set(frame, window);
    window.removeMenu();
    window.on("closed", () => this.#classWindows.delete(frame));
  }

  /** While children press keys here, the app's menu does nothing by them. */
  #restMenu(window: BrowserWindow): void {
    this.#options.onClassShown(true);
    window.on("closed", () => {
      this.#options.onClassShown([...this.#beside.keys()].some((key) => key.startsWith("tiles")));
    });
  }

  /**
   * Keeps the class screen where it is: full screen whatever is pressed, and open until the adult has taken
   * the way out. On an only display the teacher's window makes room, so that switching between windows
   * leads nowhere.
   */
  #lock(window: BrowserWindow, where: "second" | "only"): void {
    if (where === "only") this.#main?.hide();
    window.setFullScreen(true);
    window.on("leave-full-screen", () => window.setFullScreen(true));
    window.on("close", (event) => {
      if (!this.#options.isLeaving() && this.#main !== null) event.preventDefault();
    });
    window.on("closed", () => this.focusMain());
  }

  #create(place: Rectangle, { isMain, isClass = false }: WindowKind): BrowserWindow {
    const window = new BrowserWindow({
      ...place,
      minWidth: smallestWindow.width,
      minHeight: smallestWindow.height,
      show: false,
      // The class sees the page alone; the Alt key still shows the menu.
      autoHideMenuBar: !isMain,
      title: "Pebblechime",
      backgroundColor: nativeTheme.shouldUseDarkColors ? paper.dark : paper.light,
      webPreferences: {
        preload: this.#options.preload,
        contextIsolation: true,
        sandbox: true,
        nodeIntegration: false,
        webviewTag: false,
        // A covered or minimized window still has to sound the next cue on time.
        backgroundThrottling: false,
        spellcheck: false,
        ...(isClass ? { devTools: false } : {}),
      },
    });
    const contents = window.webContents;
    // Kept, because a frame cannot be asked for it once the page has gone.
    const { frameTreeNodeId } = contents.mainFrame;
    const pageLeft = () => this.#options.onPageLeft(frameTreeNodeId);
    keepInsideApp(contents, this.#options.openOutside);
    contents.on("did-navigate", pageLeft);
    contents.on("destroyed", pageLeft);
    window.once("ready-to-show", () => window.show());
    this.#reloadAfterCrash(window, pageLeft);
    return window;
  }

  /** The session runs on in the main process; a fresh page catches up with it. */
  #reloadAfterCrash(window: BrowserWindow, pageLeft: () => void): void {
    const crashes: number[] = [];
    window.webContents.on("render-process-gone", (_event, { reason }) => {
      pageLeft();
      if (reason === "clean-exit" || window.isDestroyed()) return;
      console.error(`A page was lost: ${reason}.`);
      const now = performance.now();
      crashes.push(now);
      const lately = crashes.filter((moment) => now - moment < crashSpanMs).length;
      if (lately > mostCrashes) this.#options.onBroken();
      else window.webContents.reload();
    });
  }
}

/** All displays, the main one first. */
function displays(): Display[] {
  const main = screen.getPrimaryDisplay();
  return [main, ...screen.getAllDisplays().filter(({ id }) => id !== main.id)];
}

/** A display other than the one that the teacher's window is on. */
function secondDisplay(teachers: BrowserWindow | null): Display | null {
  const here = teachers === null ? null : screen.getDisplayMatching(teachers.getBounds());
  return screen.getAllDisplays().find(({ id }) => id !== here?.id) ?? null;
}
