import { createServer, type IncomingMessage, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Duplex } from "node:stream";
import { getRequestListener } from "@hono/node-server";
import { Hono } from "hono";
import { WebSocketServer } from "ws";
import { longestMessageBytes } from "../../shared/api/procedures.ts";
import { appFiles } from "../host/app-files.ts";
import { type Served, serveSocket } from "../host/carrier.ts";
import { securityHeaders } from "../host/content-policy.ts";
import type { Handlers } from "../services/base/handlers.ts";
import { type Gate, isSame, openGate, secret } from "./gate.ts";

export interface LoopbackOptions {
  readonly handlers: Handlers;
  /** The built page (dist/app). */
  readonly appFolder: string;
  /** 0 lets the system choose. */
  readonly port?: number;
  readonly log?: (line: string) => void;
  /** Told when a page's socket is open. */
  readonly onConnect?: () => void;
}

export interface LoopbackHost {
  readonly port: number;
  readonly origin: string;
  /** What a second start shows to be given an invitation. */
  readonly joinSecret: string;
  /** An address that opens the app once. */
  invite(): string;
  /** Closes every socket and frees the port. */
  close(): Promise<void>;
}

/** Pages open at once; a teacher has a window and a board. */
const mostSockets = 50;

/** Serves the app to browsers on this machine, and to nobody else. */
export async function openLoopback(options: LoopbackOptions): Promise<LoopbackHost> {
  const server = createServer();
  const port = await listen(server, options.port ?? 0);
  const gate = openGate(port);
  const joinSecret = secret();
  const app = pages(gate, joinSecret, appFiles(options.appFolder));
  const listener = getRequestListener(app.fetch, { overrideGlobalObjects: false });
  server.on("request", (request, response) => {
    // Here too, because some requests are turned away before the app sees them.
    response.setHeaders(new Map(Object.entries(securityHeaders)));
    void listener(request, response);
  });
  server.on("clientError", (_, socket) => turnAway(socket, "400 Bad Request"));
  const sockets = acceptSockets(server, gate, options);
  return {
    port,
    origin: gate.origin,
    joinSecret,
    invite: () => gate.invite(),
    close: async () => {
      const closed = new Promise((resolve) => server.close(resolve));
      sockets.close();
      server.closeAllConnections();
      await closed;
    },
  };
}

function pages(gate: Gate, joinSecret: string, file: (request: Request) => Promise<Response>) {
  const app = new Hono();

  app.use(async (context, next) => {
    const caller = callerOfPage(context.req.raw);
    if (!gate.isOurHost(caller) || !gate.isOurOrigin(caller)) {
      return say(403, "This address is for Pebblechime's own page only.");
    }
    await next();
  });

  app.post("/join", (context) => {
    const given = context.req.header("authorization") ?? "";
    if (!isSame(given, `Bearer ${joinSecret}`)) return say(403, "This start may not join.");
    return say(200, gate.invite());
  });

  app.get("*", async (context) => {
    const url = new URL(context.req.url);
    const invitation = url.searchParams.get("key");
    const welcome = gate.hasCookie(callerOfPage(context.req.raw));
    if (invitation !== null) {
      const cookie = gate.exchange(invitation);
      if (cookie !== null) return moved(url.pathname, { "set-cookie": cookie });
      // A reload of the first address, from a page that is in already.
      if (welcome) return moved(url.pathname);
      return say(403, spent);
    }
    return welcome ? file(context.req.raw) : say(403, uninvited);
  });

  app.all("*", () => say(405, "Only reading is possible here."));
  app.onError(() => say(500, "That did not work. Try again, or start Pebblechime again."));
  return app;
}

const spent =
  "This address was used already. Start Pebblechime again to get a fresh one; what is running goes on.";
const uninvited =
  "Open Pebblechime with the address that it printed when it started, or start it again.";

function callerOfPage({ headers }: Request) {
  return {
    host: headers.get("host") ?? undefined,
    origin: headers.get("origin") ?? undefined,
    cookie: headers.get("cookie") ?? undefined,
  };
}

function say(status: number, text: string): Response {
  return new Response(text, {
    status,
    headers: {
      ...securityHeaders,
      "content-type": "text/plain; charset=utf-8",
      "cache-control": "no-store",
    },
  });
}

function moved(path: string, more: Readonly<Record<string, string>> = {}): Response {
  // One leading slash only: two would name another host.
  const location = `/${path.replace(/^\/+/, "")}`;
  return new Response(null, {
    status: 303,
    headers: { ...securityHeaders, location, "cache-control": "no-store", ...more },
  });
}

function acceptSockets(server: Server, gate: Gate, options: LoopbackOptions) {
  const { handlers, log, onConnect } = options;
  const served = new Set<Served>();
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: longestMessageBytes,
    // Compression would let a small message unpack into a huge one.
    perMessageDeflate: false,
    clientTracking: true,
  });

  server.on("upgrade", (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    socket.on("error", () => socket.destroy());
    const { host, origin, cookie } = request.headers;
    if (request.url !== "/api") return turnAway(socket, "404 Not Found");
    if (!gate.maySpeak({ host, origin, cookie })) return turnAway(socket, "403 Forbidden");
    if (served.size >= mostSockets) return turnAway(socket, "503 Service Unavailable");
    sockets.handleUpgrade(request, socket, head, (webSocket) => {
      const line = serveSocket(webSocket, handlers, log === undefined ? {} : { log });
      served.add(line);
      onConnect?.();
      webSocket.on("close", () => served.delete(line));
    });
  });

  return {
    close: () => {
      for (const line of [...served]) line.close();
      for (const client of sockets.clients) client.terminate();
      sockets.close();
    },
  };
}

function turnAway(socket: Duplex, status: string): void {
  if (!socket.writable) return;
  const headers = Object.entries(securityHeaders).map(([name, value]) => `${name}: ${value}\r\n`);
  socket.end(
    `HTTP/1.1 ${status}\r\n${headers.join("")}content-length: 0\r\nconnection: close\r\n\r\n`,
  );
}

function listen(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen({ host: "127.0.0.1", port, exclusive: true }, () => {
      server.off("error", reject);
      // A TCP server that listens has an address of this kind.
      resolve((server.address() as AddressInfo).port);
    });
  });
}
