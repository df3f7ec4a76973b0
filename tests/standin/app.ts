import { EventEmitter } from "node:events";
import { readFileSync } from "node:fs";
import { homedir, tmpdir } from "node:os";
import { join } from "node:path";
import { BrowserWindowStandIn, onAllClosed } from "./browser-window.ts";
import { takeInstance } from "./single-instance.ts";
import { lowerCurtain, raiseCurtain, stage } from "./stage.ts";

type AppSurface = Pick<
  Electron.App,
  | "enableSandbox"
  | "exit"
  | "focus"
  | "getLocale"
  | "getName"
  | "getPath"
  | "getVersion"
  | "isPackaged"
  | "isReady"
  | "name"
  | "quit"
  | "requestSingleInstanceLock"
  | "setName"
  | "setPath"
  | "whenReady"
>;

const root = join(import.meta.dirname, "..", "..");
const { name, version }: { name: string; version: string } = JSON.parse(
  readFileSync(join(root, "package.json"), "utf8"),
);

class AppStandIn extends EventEmitter implements AppSurface {
  readonly isPackaged = false;
  name = name;
  readonly commandLine: Pick<Electron.CommandLine, "appendSwitch" | "hasSwitch"> = {
    appendSwitch: (key, value) => {
      stage.switches.push(value === undefined ? `--${key}` : `--${key}=${value}`);
    },
    hasSwitch: (key) => stage.switches.some((given) => given.split("=")[0] === `--${key}`),
  };
  readonly #paths = new Map<string, string>();
  readonly #ready = Promise.withResolvers<void>();
  #isReady = false;
  #sandboxed = false;
  #quitting = false;

  enableSandbox(): void {
    if (this.#isReady) throw new Error("app.enableSandbox() must come before the app is ready.");
    this.#sandboxed = true;
  }

  /** For the start: the browser is up, or will not come. */
  async begin(executable: string): Promise<{ endpoint: string; pid: number | undefined }> {
    if (!this.#sandboxed) throw new Error("The app did not ask for the sandbox.");
    const chromium = await raiseCurtain(executable, this.getPath("userData"));
    this.#isReady = true;
    this.#ready.resolve();
    this.emit("ready");
    onAllClosed(() => {
      if (this.#quitting) return;
      if (!this.emit("window-all-closed")) this.quit();
    });
    return { endpoint: chromium.endpoint, pid: chromium.process.pid };
  }

  isReady(): boolean {
    return this.#isReady;
  }

  whenReady(): Promise<void> {
    return this.#ready.promise;
  }

  setName(given: string): void {
    this.name = given;
  }

  getName(): string {
    return this.name;
  }

  getVersion(): string {
    return version;
  }

  getLocale(): string {
    return process.env.LC_ALL?.startsWith("es") ? "es-ES" : "en-US";
  }

  getPath(wanted: Parameters<Electron.App["getPath"]>[0]): string {
    const appData = process.env.XDG_CONFIG_HOME ?? join(homedir(), ".config");
    const usual: Readonly<Record<string, string>> = {
      home: homedir(),
      appData,
      userData: join(appData, this.name),
      temp: tmpdir(),
      documents: join(homedir(), "Documents"),
      downloads: join(homedir(), "Downloads"),
    };
    const path = this.#paths.get(wanted) ?? usual[wanted];
    if (path === undefined) throw new Error(`The stand-in has no folder "${wanted}".`);
    return path;
  }

  setPath(key: string, path: string): void {
    this.#paths.set(key, path);
  }

  requestSingleInstanceLock(): boolean {
    return takeInstance(this.getPath("userData"), ({ argv, folder }) =>
      this.emit("second-instance", {}, argv, folder, undefined),
    );
  }

  focus(): void {
    BrowserWindowStandIn.getAllWindows()[0]?.focus();
  }

  quit(): void {
    if (this.#quitting) return;
    if (!this.#emitPreventable("before-quit")) return;
    this.#quitting = true;
    for (const window of BrowserWindowStandIn.getAllWindows()) window.close();
    if (BrowserWindowStandIn.getAllWindows().length > 0) {
      this.#quitting = false;
      return;
    }
    if (this.#emitPreventable("will-quit")) this.exit(0);
    else this.#quitting = false;
  }

  exit(code = 0): void {
    this.#quitting = true;
    for (const window of BrowserWindowStandIn.getAllWindows()) window.destroy();
    this.emit("quit", {}, code);
    if (!this.#isReady) process.exit(code);
    void lowerCurtain().finally(() => process.exit(code));
  }

  #emitPreventable(event: "before-quit" | "will-quit"): boolean {
    let prevented = false;
    this.emit(event, {
      preventDefault: () => {
        prevented = true;
      },
    });
    return !prevented;
  }
}

export const app = new AppStandIn();
process.on("SIGTERM", () => app.quit());
process.on("SIGINT", () => app.quit());
