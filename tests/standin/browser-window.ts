import { EventEmitter } from "node:events";
import { WebContentsStandIn } from "./web-contents.ts";

type WindowSurface = Pick<
  Electron.BrowserWindow,
  | "id"
  | "loadURL"
  | "show"
  | "hide"
  | "removeMenu"
  | "focus"
  | "isFocused"
  | "isVisible"
  | "isMinimized"
  | "minimize"
  | "restore"
  | "isMaximized"
  | "maximize"
  | "unmaximize"
  | "isFullScreen"
  | "setFullScreen"
  | "getBounds"
  | "setBounds"
  | "getNormalBounds"
  | "close"
  | "destroy"
  | "isDestroyed"
>;

const windows = new Set<BrowserWindowStandIn>();
let lastId = 0;
let focused: BrowserWindowStandIn | null = null;
let whenAllClosed: () => void = () => undefined;

/** For the app: called when the last window has closed. */
export function onAllClosed(listener: () => void): void {
  whenAllClosed = listener;
}

/** A window without a frame around it: its place is kept here, its page is real. */
export class BrowserWindowStandIn extends EventEmitter implements WindowSurface {
  static getAllWindows(): BrowserWindowStandIn[] {
    return [...windows];
  }

  static getFocusedWindow(): BrowserWindowStandIn | null {
    return focused;
  }

  static fromWebContents(contents: unknown): BrowserWindowStandIn | null {
    return [...windows].find((window) => window.webContents === contents) ?? null;
  }

  readonly id = ++lastId;
  readonly webContents: WebContentsStandIn;
  #bounds: Electron.Rectangle;
  #visible: boolean;
  #minimized = false;
  #maximized = false;
  #fullScreen: boolean;
  #destroyed = false;

  constructor(options: Electron.BrowserWindowConstructorOptions = {}) {
    super();
    const { x = 0, y = 0, width = 800, height = 600, show = true, webPreferences = {} } = options;
    if (webPreferences.sandbox === false || webPreferences.contextIsolation === false) {
      throw new Error(
        "A window without sandbox or context isolation: the app must never open one.",
      );
    }
    this.#bounds = { x, y, width, height };
    this.#visible = show;
    this.#fullScreen = options.fullscreen ?? false;
    this.webContents = new WebContentsStandIn(webPreferences.preload, { width, height });
    this.webContents.once("ready-to-show", () => this.emit("ready-to-show"));
    this.webContents.on("destroyed", () => this.#gone());
    windows.add(this);
    if (show) this.focus();
  }

  loadURL(address: string): Promise<void> {
    return this.webContents.loadURL(address);
  }

  show(): void {
    this.#visible = true;
    this.emit("show");
    this.focus();
  }

  hide(): void {
    this.#visible = false;
    this.emit("hide");
  }

  removeMenu(): void {
    this.emit("menu-removed");
  }

  focus(): void {
    focused = this;
    this.emit("focus");
    void this.webContents.bringToFront().catch(() => undefined);
  }

  isFocused(): boolean {
    return focused === this;
  }

  isVisible(): boolean {
    return this.#visible && !this.#minimized;
  }

  isMinimized(): boolean {
    return this.#minimized;
  }

  minimize(): void {
    this.#minimized = true;
    this.emit("minimize");
  }

  restore(): void {
    this.#minimized = false;
    this.emit("restore");
  }

  isMaximized(): boolean {
    return this.#maximized;
  }

  maximize(): void {
    this.#maximized = true;
    this.emit("maximize");
  }

  unmaximize(): void {
    this.#maximized = false;
    this.emit("unmaximize");
  }

  isFullScreen(): boolean {
    return this.#fullScreen;
  }

  setFullScreen(fullScreen: boolean): void {
    this.#fullScreen = fullScreen;
    this.emit(fullScreen ? "enter-full-screen" : "leave-full-screen");
  }

  getBounds(): Electron.Rectangle {
    return { ...this.#bounds };
  }

  getNormalBounds(): Electron.Rectangle {
    return { ...this.#bounds };
  }

  setBounds(bounds: Partial<Electron.Rectangle>): void {
    this.#bounds = { ...this.#bounds, ...bounds };
    const { width, height } = this.#bounds;
    void this.webContents.setSize(width, height).catch(() => undefined);
    this.emit("move");
    this.emit("resize");
  }

  close(): void {
    if (this.#destroyed) return;
    let prevented = false;
    this.emit("close", {
      preventDefault: () => {
        prevented = true;
      },
    });
    if (!prevented) this.destroy();
  }

  destroy(): void {
    if (this.#destroyed) return;
    void this.webContents.destroy().catch(() => undefined);
    this.#gone();
  }

  isDestroyed(): boolean {
    return this.#destroyed;
  }

  #gone(): void {
    if (this.#destroyed) return;
    this.#destroyed = true;
    windows.delete(this);
    if (focused === this) focused = null;
    this.emit("closed");
    if (windows.size === 0) whenAllClosed();
  }
}
