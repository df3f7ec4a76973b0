import { readFile } from "node:fs/promises";
import { createServer, type ServerResponse } from "node:http";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = new URL("../../../", import.meta.url);

/** Serves the player's page and tells it of each cue, as the conductor does, some seconds ahead. */
export interface PlayerHost {
  readonly url: string;
  /** Tells the page of cues due at these moments of the bench's clock; resolves after the last one. */
  callCues(dueMs: readonly number[]): Promise<void>;
  close(): void;
}

const toldAheadMs = 4000;

export async function openPlayerHost(): Promise<PlayerHost> {
  const script = await bundle();
  let listener: ServerResponse | null = null;
  const server = createServer(async (request, response) => {
    const path = request.url ?? "/";
    if (path === "/clock") {
      response.setHeader("content-type", "application/json");
      response.end(JSON.stringify({ monotonicMs: performance.now(), speed: 1 }));
    } else if (path === "/cues") {
      response.writeHead(200, { "content-type": "text/event-stream", "cache-control": "no-store" });
      response.flushHeaders();
      listener = response;
    } else if (path === "/src/sound/page.js") {
      response.setHeader("content-type", "text/javascript");
      response.end(script);
    } else if (/^\/assets\/chimes\/[a-z]+\.wav$/.test(path)) {
      response.setHeader("content-type", "audio/wav");
      response.end(await readFile(new URL(`.${path}`, root)));
    } else {
      response.setHeader("content-type", "text/html");
      response.end('<body><script type="module" src="/src/sound/page.js"></script>');
    }
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const address = server.address();
  if (!address || typeof address === "string") throw new Error("The bench page has no address.");
  return {
    url: `http://127.0.0.1:${address.port}/`,
    async callCues(dueMs) {
      for (const [index, due] of dueMs.entries()) {
        await pauseUntil(due - toldAheadMs);
        listener?.write(`data: ${JSON.stringify({ cue: index + 1, dueMonotonicMs: due })}\n\n`);
      }
      await pauseUntil((dueMs.at(-1) ?? 0) + 3000);
    },
    close() {
      server.closeAllConnections();
      server.close();
    },
  };
}

async function pauseUntil(ms: number): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, Math.max(0, ms - performance.now())));
}

async function bundle(): Promise<string> {
  const built = await build({
    entryPoints: [fileURLToPath(new URL("player-page.ts", import.meta.url))],
    bundle: true,
    format: "esm",
    write: false,
  });
  return built.outputFiles[0]?.text ?? "";
}
