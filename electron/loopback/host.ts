import { createServer, type IncomingMessage, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Duplex } from "node:stream";
import { getRequestListener } from "@hono/node-server";
import { Hono } from "hono";
import { WebSocketServer } from "ws";
import { longestMessageBytes } from "../../shared/api/procedures.ts";
import { appFiles } from "../host/app-files.ts";
import { type Served, serveSocket } from "../host/carrier.ts";
import { classLines } from "../host/class-line.ts";
import { securityHeaders } from "../host/content-policy.ts";
import type { Handlers } from "../services/base/handlers.ts";
import { openEntry } from "./entry.ts";
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
  /** An address that opens the app once, within ten minutes. */
  invite(): string;
  /** Whether a page has come in by this address. */
  isSpent(address: string): boolean;
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
    isSpent: (address) => gate.isSpent(address),
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

  const mayJoin = (request: Request) =>
    isSame(request.headers.get("authorization") ?? "", `Bearer ${joinSecret}`);
  app.post("/join", ({ req }) =>
    mayJoin(req.raw) ? say(200, gate.invite()) : say(403, "This start may not join."),
  );
  // Another start asks whether the page that it opened has come.
  app.post("/joined", async ({ req }) => {
    if (!mayJoin(req.raw)) return say(403, "This start may not join.");
    return say(200, gate.isSpent((await req.text()).slice(0, 400)) ? "yes" : "no");
  });

  // The files hold nothing of anybody's; what is worth keeping is behind the socket.
  app.get("*", (context) => file(context.req.raw));

  app.all("*", () => say(405, "Only reading is possible here."));
  app.onError(() => say(500, "That did not work. Try again, or start Pebblechime again."));
  return app;
}

function callerOfPage({ headers }: Request) {
  return {
    host: headers.get("host") ?? undefined,
    origin: headers.get("origin") ?? undefined,
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

function acceptSockets(server: Server, gate: Gate, options: LoopbackOptions) {
  const { handlers, log, onConnect } = options;
  const served = new Set<Served>();
  const entry = openEntry(gate);
  /** The ticket of each open line. */
  const ticketOf = new Map<Served, string>();
  /** The whole API, where a window can swap its ticket for the class screen's narrower one. */
  const forTeacher = (line: () => Served | null): Handlers => ({
    ...handlers,
    classScreen: {
      ...handlers.classScreen,
      enter: ({ here }) => {
        const others = [...ticketOf].filter(([each]) => each !== line()).map(([, id]) => id);
        if (here) gate.forgetUnused(new Set(others));
        return { ticket: gate.issue("class") };
      },
    },
  });
  const classLine = classLines(handlers);
  const forClass = (ticketId: string) =>
    classLine(() => {
      // Whoever copied the class screen's tab has no use of its ticket any more.
      gate.forget(ticketId);
      return gate.issue("teacher");
    });
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: longestMessageBytes,
    // Compression would let a small message unpack into a huge one.
    perMessageDeflate: false,
    clientTracking: true,
  });

  server.on("upgrade", (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    socket.on("error", () => socket.destroy());
    const { host, origin } = request.headers;
    if (request.url !== "/api") return turnAway(socket, "404 Not Found");
    if (!gate.mayKnock({ host, origin })) return turnAway(socket, "403 Forbidden");
    if (served.size >= mostSockets) return turnAway(socket, "503 Service Unavailable");
    sockets.handleUpgrade(request, socket, head, (webSocket) => {
      entry.receive(webSocket, ({ scope, id }) => {
        webSocket.once("message", () => gate.spoke(id));
        let line: Served | null = null;
        const api = scope === "class" ? forClass(id) : forTeacher(() => line);
        const opened = serveSocket(webSocket, api, log === undefined ? {} : { log });
        line = opened;
        ticketOf.set(opened, id);
        served.add(opened);
        onConnect?.();
        webSocket.on("close", () => {
          gate.gone(id);
          served.delete(opened);
          ticketOf.delete(opened);
        });
      });
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
