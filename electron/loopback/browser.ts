/** Whether there is a screen on which a browser could open. */
export function hasScreen(
  platform: string,
  env: Readonly<Record<string, string | undefined>>,
): boolean {
  if (env.CI !== undefined || env.SSH_CONNECTION !== undefined) return false;
  if (platform === "darwin" || platform === "win32") return true;
  return Boolean(env.DISPLAY ?? env.WAYLAND_DISPLAY);
}

/** Opens the address in the usual browser, where there is one; the printed address is there in any case. */
export async function openBrowser(address: string): Promise<void> {
  if (!hasScreen(process.platform, process.env)) return;
  // Loaded only here: most of a start has no need of it.
  const { default: open } = await import("open");
  const browser = await open(address);
  browser.on("error", () => undefined);
}
