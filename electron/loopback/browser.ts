import { spawn } from "node:child_process";

/** Whether there is a screen on which a browser could open. */
export function hasScreen(
  platform: string,
  env: Readonly<Record<string, string | undefined>>,
): boolean {
  if (env.CI !== undefined || env.SSH_CONNECTION !== undefined) return false;
  if (platform === "darwin" || platform === "win32") return true;
  return Boolean(env.DISPLAY ?? env.WAYLAND_DISPLAY);
}

/**
 * What each system starts to show a file in the usual program for web pages. Every user of the computer
 * can read these words, so they name a file that only its owner can read, and never an address with a key.
 * @returns the program and its words
 */
export function openingCommand(platform: string, file: string): readonly [string, string[]] {
  if (platform === "darwin") return ["open", [file]];
  // Not `cmd /c start`, which would take some letters of a path for its own.
  if (platform === "win32") return ["rundll32.exe", ["url.dll,FileProtocolHandler", file]];
  return ["xdg-open", [file]];
}

/** Shows a file in the usual browser. Whether it worked only the page that comes can tell. */
export function openFile(file: string): void {
  const [program, words] = openingCommand(process.platform, file);
  const child = spawn(program, words, { stdio: "ignore", detached: true, windowsHide: true });
  child.on("error", () => undefined);
  child.unref();
}
