import { readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { secret } from "./gate.ts";

export interface WayIn {
  /** An address that opens one page. */
  readonly address: string;
  /** Whether the page has come. */
  hasCome(): boolean | Promise<boolean>;
}

export interface Surroundings {
  /** Where the file that leads to the address is kept; only its owner can look into it. */
  readonly folder: string;
  /** Shows a file in a browser; null where there is none or none is wanted. */
  readonly openFile: ((file: string) => void) | null;
  /** Whether what is said reaches a person at once, and is not kept in a file. */
  readonly isTerminal: boolean;
  say(line: string): void;
  /** When to stop waiting: the host ends. */
  readonly stopped?: AbortSignal;
}

/** A browser that has shown nothing for so long may not read the file, or does not start, in ms. */
const usually = { patienceMs: 5_000, giveUpMs: 60_000, lookMs: 100 };

/**
 * Leads a person to the page: opens a browser with a private file that leads on to the address, because
 * other users can read what a program was started with. Only when no page comes, or there is no browser to
 * open, the address itself is said, as it is the one way in then.
 */
export async function showWayIn(
  { address, hasCome }: WayIn,
  { folder, openFile, isTerminal, say, stopped }: Surroundings,
  { patienceMs, giveUpMs, lookMs } = usually,
): Promise<void> {
  const file = openFile === null ? null : leadingFile(folder, address);
  if (openFile === null || file === null) {
    say(`Pebblechime is at ${address}`);
    say("The address works once, within ten minutes.");
    return;
  }
  const remove = () => rmSync(file, { force: true });
  stopped?.addEventListener("abort", remove);
  try {
    say(`Pebblechime opens in the browser, at ${new URL(address).origin}`);
    openFile(file);
    const comes = async (withinMs: number) => {
      const lastMs = performance.now() + withinMs;
      while (stopped?.aborted !== true && performance.now() < lastMs) {
        if (await hasCome()) return true;
        await wait(lookMs);
      }
      return stopped?.aborted === true;
    };
    if (await comes(patienceMs)) return;
    say("No page has come yet. Open this in a browser on this computer:");
    // What is kept in a file must hold no key: the way to the file with the address is enough.
    say(isTerminal ? address : file);
    say("It works once, within ten minutes.");
    await comes(giveUpMs);
  } finally {
    remove();
    stopped?.removeEventListener("abort", remove);
  }
}

const fileName = /^open-[\w-]{8}\.html$/;

/** Removes what a start that was killed left behind; for the one process that holds the folder. */
export function removeOldWaysIn(folder: string): void {
  for (const name of readdirSync(folder)) {
    if (fileName.test(name)) rmSync(join(folder, name), { force: true });
  }
}

/** Writes the private file; null where nothing can be written, as on a full disk. */
function leadingFile(folder: string, address: string): string | null {
  const file = join(folder, `open-${secret().slice(0, 8)}.html`);
  try {
    writeFileSync(file, leadingTo(address), { mode: 0o600, flag: "wx" });
    return file;
  } catch {
    rmSync(file, { force: true });
    return null;
  }
}

/** A page without script that leads on; the link is for browsers that do not follow by themselves. */
function leadingTo(address: string): string {
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="referrer" content="no-referrer">
<meta http-equiv="refresh" content="0;url=${address}">
<title>Pebblechime</title>
<p><a href="${address}">Open Pebblechime</a></p>
</html>
`;
}
