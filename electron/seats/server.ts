import { createServer, type IncomingMessage, type Server } from "node:http";
import { createServer as createSecureServer } from "node:https";
import type { AddressInfo, Socket } from "node:net";
import type { Duplex } from "node:stream";
import { WebSocketServer } from "ws";
import { longestSeatMessageBytes, mostSockets } from "../../shared/seats/limits.ts";
import type { Certificate } from "./certificate.ts";
import { guesses } from "./guesses.ts";
import { serveSeat } from "./line.ts";
import { isOwnHost } from "./own-addresses.ts";
import { pageFiles } from "./page-files.ts";
import type { SeatRoom } from "./room.ts";

export interface SeatsServerOptions {
  readonly room: SeatRoom;
  /** The built page (dist/seats). */
  readonly folder: string;
  /** 0 lets the system choose. */
  readonly port: number;
  readonly certificate: Certificate | null;
  readonly socketsAnAddress: number;
}

export interface SeatsServer {
  readonly port: number;
  readonly isSecure: boolean;
  /** Hangs up on every device and frees the port. */
  close(): Promise<void>;
}

const headers: Readonly<Record<string, string>> = {
  "content-security-policy":
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src data:; connect-src 'self' ws: wss:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  "x-content-type-options": "nosniff",
  "x-frame-options": "DENY",
  "referrer-policy": "no-referrer",
  "permissions-policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
  "cache-control": "no-store",
};

/**
 * The second server, for students' own devices: one page of three files, and one line a device. It imports
 * neither the app's procedures nor its carriers, knows no cookie, and answers only under this computer's
 * own addresses.
 */
export async function openSeatsServer(options: SeatsServerOptions): Promise<SeatsServer> {
  const { certificate } = options;
  const files = pageFiles(options.folder);
  const often = { connectionsCheckingInterval: 1_000 };
  const server =
    certificate === null
      ? createServer(often)
      : createSecureServer({
          ...often,
          cert: certificate.cert,
          key: certificate.key,
          handshakeTimeout: 5_000,
        });
  // Slow and silent callers are let go, and no number of them keeps the class out for long.
  server.headersTimeout = 5_000;
  server.requestTimeout = 10_000;
  server.keepAliveTimeout = 5_000;
  server.maxHeadersCount = 60;
  server.maxConnections = 2 * mostSockets;
  const port = await listen(server, options.port);

  server.on("request", (request: IncomingMessage, response) => {
    request.resume();
    const answer = (status: number, type: string, content: string | Buffer) => {
      response.writeHead(status, {
        ...headers,
        "content-type": type,
        "content-length": Buffer.byteLength(content),
      });
      response.end(request.method === "HEAD" ? undefined : content);
    };
    const plain = "text/plain; charset=utf-8";
    if (!isOwnHost(request.headers.host, port, certificate)) {
      return answer(403, plain, "This address is not this computer's.");
    }
    if (request.method !== "GET" && request.method !== "HEAD") {
      return answer(405, plain, "Only reading is possible here.");
    }
    const file = files.get(request.url ?? "");
    return file === undefined
      ? answer(404, plain, "There is no such page.")
      : answer(200, file.type, file.content);
  });
  server.on("clientError", (_, socket) => turnAway(socket, "400 Bad Request"));
  const sockets = acceptSeats(server, port, options);
  const connections = limitConnections(server, options.socketsAnAddress);

  return {
    port,
    isSecure: certificate !== null,
    async close() {
      const closed = new Promise((resolve) => server.close(resolve));
      sockets.close();
      server.closeAllConnections();
      connections.destroyAll();
      await closed;
    },
  };
}

function acceptSeats(
  server: Server,
  port: number,
  { room, socketsAnAddress, certificate }: SeatsServerOptions,
) {
  const wrong = guesses(
    () => performance.now(),
    (ms) => room.joiningPaused(ms),
  );
  const byAddress = new Map<string, number>();
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: longestSeatMessageBytes,
    perMessageDeflate: false,
    clientTracking: true,
  });
  server.on("upgrade", (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    socket.on("error", () => socket.destroy());
    const { host, origin } = request.headers;
    if (request.url !== "/seat") return turnAway(socket, "404 Not Found");
    const scheme = certificate === null ? "http" : "https";
    // Our own page says where it comes from; another page, or none, is not let in.
    if (
      !isOwnHost(host, port, certificate) ||
      origin?.toLowerCase() !== `${scheme}://${host?.toLowerCase()}`
    ) {
      return turnAway(socket, "403 Forbidden");
    }
    const address = request.socket.remoteAddress ?? "";
    const there = byAddress.get(address) ?? 0;
    if (there >= socketsAnAddress || sockets.clients.size >= mostSockets) {
      return turnAway(socket, "503 Service Unavailable");
    }
    byAddress.set(address, there + 1);
    socket.once("close", () => {
      const rest = (byAddress.get(address) ?? 1) - 1;
      if (rest === 0) byAddress.delete(address);
      else byAddress.set(address, rest);
    });
    sockets.handleUpgrade(request, socket, head, (webSocket) => {
      serveSeat(webSocket, address, room, wrong);
    });
  });
  return {
    close() {
      for (const client of sockets.clients) client.close(1001);
      sockets.close();
    },
  };
}

/** Connections of one address, whatever they are for: twice as many as it may have devices. */
function limitConnections(server: Server, socketsAnAddress: number) {
  const byAddress = new Map<string, Set<Socket>>();
  const all = new Set<Socket>();
  server.on("connection", (socket: Socket) => {
    const address = socket.remoteAddress ?? "";
    const open = byAddress.get(address) ?? new Set();
    if (open.size >= 2 * socketsAnAddress) {
      socket.destroy();
      return;
    }
    byAddress.set(address, open.add(socket));
    all.add(socket);
    socket.once("close", () => {
      all.delete(socket);
      open.delete(socket);
      if (open.size === 0 && byAddress.get(address) === open) byAddress.delete(address);
    });
  });
  return {
    destroyAll() {
      for (const socket of all) socket.destroy();
    },
  };
}

function turnAway(socket: Duplex, status: string): void {
  if (!socket.writable) return;
  socket.end(
    `HTTP/1.1 ${status}\r\ncontent-length: 0\r\nconnection: close\r\n\r\n`,
    // One that reads nothing is not waited for.
    () => socket.destroy(),
  );
}

/** On every address of this computer, of both kinds; where there is no IPv6, on those of IPv4. */
function listen(server: Server, port: number): Promise<number> {
  const on = (host: string) =>
    new Promise<number>((resolve, reject) => {
      server.once("error", reject);
      server.listen({ host, port, exclusive: true }, () => {
        server.off("error", reject);
        // A TCP server that listens has an address of this kind.
        resolve((server.address() as AddressInfo).port);
      });
    });
  return on("::").catch((error: NodeJS.ErrnoException) => {
    if (error.code !== "EAFNOSUPPORT" && error.code !== "EADDRNOTAVAIL") throw error;
    return on("0.0.0.0");
  });
}
