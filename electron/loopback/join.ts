import { setTimeout as wait } from "node:timers/promises";
import { type Running, readRunning } from "../store/file/folder-lock.ts";

/** The first start writes how to be joined a moment after it took the folder. */
const usually = { attempts: 15, pauseMs: 200 };

/**
 * Asks the start that holds the data folder for an address that opens one more page of it.
 * @returns the address, or null when it cannot be joined, as when it runs in a window of its own
 */
export async function joinRunning(
  folder: string,
  { attempts, pauseMs } = usually,
): Promise<string | null> {
  for (let attempt = 0; attempt < attempts; attempt += 1) {
    const running = readRunning(folder);
    if (running?.host === "electron") return null;
    const address = running === null ? null : await invitation(running);
    if (address !== null) return address;
    await wait(pauseMs);
  }
  return null;
}

async function invitation({ address, joinSecret }: Running): Promise<string | null> {
  if (address === null || joinSecret === null || !isLoopback(address)) return null;
  try {
    const answer = await fetch(new URL("/join", address), {
      method: "POST",
      headers: { authorization: `Bearer ${joinSecret}` },
      signal: AbortSignal.timeout(2_000),
    });
    const invited = await answer.text();
    return answer.ok && invited.startsWith(`${address}/?key=`) ? invited : null;
  } catch {
    return null;
  }
}

/** The secret goes to this machine only, whatever the file says. */
function isLoopback(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, hostname } = new URL(address);
  return protocol === "http:" && hostname === "127.0.0.1";
}
