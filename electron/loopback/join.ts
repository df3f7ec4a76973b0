import { setTimeout as wait } from "node:timers/promises";
import { type Running, readRunning } from "../store/file/folder-lock.ts";

/** The first start writes how to be joined a moment after it took the folder. */
const usually = { attempts: 15, pauseMs: 200 };

/** One more page of a start that runs already. */
export interface Joined {
  /** Opens the page once. */
  readonly address: string;
  /** Whether the page has come. */
  hasCome(): Promise<boolean>;
}

/**
 * Asks the start that holds the data folder for an address that opens one more page of it.
 * @returns null when it cannot be joined, as when it runs in a window of its own
 */
export async function joinRunning(
  folder: string,
  { attempts, pauseMs } = usually,
): Promise<Joined | null> {
  for (let attempt = 0; attempt < attempts; attempt += 1) {
    const running = readRunning(folder);
    if (running?.host === "electron") return null;
    const joined = running === null ? null : await invitation(running);
    if (joined !== null) return joined;
    await wait(pauseMs);
  }
  return null;
}

async function invitation({ address, joinSecret }: Running): Promise<Joined | null> {
  if (address === null || joinSecret === null || !isLoopback(address)) return null;
  const ask = async (path: string, body: string): Promise<string | null> => {
    try {
      const answer = await fetch(new URL(path, address), {
        method: "POST",
        headers: { authorization: `Bearer ${joinSecret}` },
        body,
        signal: AbortSignal.timeout(2_000),
      });
      return answer.ok ? await answer.text() : null;
    } catch {
      return null;
    }
  };
  const invited = await ask("/join", "");
  if (invited === null || !invited.startsWith(`${address}/#key=`)) return null;
  return { address: invited, hasCome: async () => (await ask("/joined", invited)) === "yes" };
}

/** The secret goes to this machine only, whatever the file says. */
function isLoopback(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, hostname } = new URL(address);
  return protocol === "http:" && hostname === "127.0.0.1";
}
