import { join } from "node:path";
import { MessageChannel, type MessagePort as NodePort } from "node:worker_threads";
import { WebSocket as NodeSocket } from "ws";
import { callDirectly, type Served, servePort } from "../../../electron/host/carrier.ts";
import { openLoopback } from "../../../electron/loopback/host.ts";
import type { Handlers } from "../../../electron/services/base/handlers.ts";
import { readInvitation, type Ticket } from "../../../shared/api/entry.ts";
import { apiCalling, type Link, linkOver } from "../../../src/api/client.ts";
import type { Patience } from "../../../src/api/connection.ts";
import { enter } from "../../../src/api/enter.ts";
import { follow } from "../../../src/api/follow.ts";
import { type Line, openSocketLine, portLine } from "../../../src/api/line.ts";

/** A served API and the page's own client on the other end. */
export interface Carried {
  readonly link: Link;
  /** What the desktop side logged. */
  readonly log: readonly string[];
  close(): Promise<void>;
}

/** A line on which a test may say anything. */
export interface RawLine {
  send(message: string | Uint8Array | object): void;
  /** Texts received so far. */
  readonly texts: string[];
  /** Resolves when the other side closed: with the code, or null where the carrier has none. */
  readonly closed: Promise<number | null>;
  /** From now on nothing is read or acknowledged. */
  stopReading(): void;
  readOn(): void;
  close(): void;
}

export interface LineCarried extends Carried {
  /** The desktop side goes away: every line ends. Lines opened later find it again. */
  cut(): void;
  /** While it is down no line opens. */
  down(isDown: boolean): void;
  raw(): Promise<RawLine>;
}

/** Tries again at once, and gives calls up soon. */
export const impatient: Patience = { pauseMs: () => 20, callMs: 1_000 };

export function inMemory(handlers: Handlers): Promise<Carried> {
  const log: string[] = [];
  // The client is a tree of functions by name, which is all that is used of it.
  const client = callDirectly(handlers, { log: (line) => log.push(line) }) as unknown as Record<
    string,
    Record<string, (input: unknown, options: object) => Promise<unknown>>
  >;
  const api = apiCalling(([subject = "", name = ""], input, { signal }) => {
    const call = client[subject]?.[name];
    if (call === undefined) throw new Error(`There is no ${subject}.${name}.`);
    return call(input, signal === undefined ? {} : { signal });
  });
  const link: Link = {
    api,
    state: () => "open",
    barredFor: () => null,
    scope: () => "teacher",
    renew: () => undefined,
    onState: () => () => undefined,
    follow: (stream) => follow(api, stream),
    retryNow: () => undefined,
    close: () => undefined,
  };
  return Promise.resolve({ link, log, close: async () => undefined });
}

export async function overPort(handlers: Handlers): Promise<LineCarried> {
  const log: string[] = [];
  const served = new Set<Served>();
  let isDown = false;

  const open = (): NodePort => {
    const { port1, port2 } = new MessageChannel();
    served.add(servePort(port1, handlers, { log: (line) => log.push(line) }));
    return port2;
  };
  const cut = () => {
    for (const line of served) line.close();
    served.clear();
  };
  const link = linkOver(async () => {
    if (isDown) throw new Error("down");
    // Node's port is the browser's one for all that a line uses.
    return portLine(open() as unknown as MessagePort);
  }, impatient);

  return {
    link,
    log,
    cut,
    down: (now) => {
      isDown = now;
    },
    raw: async () => rawPort(open()),
    close: async () => {
      link.close();
      cut();
    },
  };
}

function rawPort(port: NodePort): RawLine {
  const texts: string[] = [];
  let reading = true;
  let unread: string[] = [];
  const read = (text: string) => {
    texts.push(text);
    port.postMessage(text.length);
  };
  port.on("message", (text: string) => {
    if (reading) read(text);
    else unread.push(text);
  });
  return {
    send: (message) => port.postMessage(message),
    texts,
    closed: new Promise((resolve) => port.on("close", () => resolve(null))),
    stopReading: () => {
      reading = false;
    },
    readOn: () => {
      reading = true;
      const late = unread;
      unread = [];
      for (const text of late) read(text);
    },
    close: () => port.close(),
  };
}

export async function overSocket(handlers: Handlers): Promise<LineCarried> {
  const log: string[] = [];
  const host = await openLoopback({
    handlers,
    appFolder: join(import.meta.dirname, "page"),
    log: (line) => log.push(line),
  });
  const address = `ws://127.0.0.1:${host.port}/api`;
  const headers = { origin: host.origin };
  // The ticket that a tab would keep.
  let ticket = invitationIn(host.invite());
  let isDown = false;

  /** Sends what a browser would send by itself. */
  class PageSocket extends NodeSocket {
    constructor(url: string) {
      super(url, { headers, perMessageDeflate: false });
      open.add(this);
      this.on("close", () => open.delete(this));
    }
  }
  const open = new Set<NodeSocket>();
  const before = globalThis.WebSocket;
  Object.assign(globalThis, { WebSocket: PageSocket });

  const link = linkOver(async () => {
    if (isDown) throw new Error("down");
    const line = await openSocketLine(address);
    ticket = await enter(line, ticket);
    return line;
  }, impatient);

  return {
    link,
    log,
    cut: () => {
      // To the page a connection that breaks and a desktop side that dies look the same.
      for (const socket of open) socket.terminate();
    },
    down: (now) => {
      isDown = now;
    },
    raw: async () => {
      const socket = new NodeSocket(address, { headers, perMessageDeflate: false });
      await enter(entryLine(socket), invitationIn(host.invite()));
      return rawSocket(socket);
    },
    close: async () => {
      link.close();
      Object.assign(globalThis, { WebSocket: before });
      await host.close();
    },
  };
}

/** A Node socket as the line on which a page enters. */
export function entryLine(socket: NodeSocket): Line {
  const opened = new Promise((resolve) => socket.on("open", resolve));
  return {
    send: (text) => void opened.then(() => socket.send(text)),
    read: (onText) => socket.on("message", (data) => onText(data.toString())),
    onClose: (listener) => socket.on("close", listener),
    close: () => socket.terminate(),
  };
}

/** The invitation that an address holds. */
export function invitationIn(address: string): Ticket {
  const invitation = readInvitation(new URL(address).hash);
  if (invitation === null) throw new Error(`${address} invites nobody.`);
  return invitation;
}

function rawSocket(socket: NodeSocket): RawLine {
  const texts: string[] = [];
  socket.removeAllListeners("message");
  socket.on("message", (data) => texts.push(data.toString()));
  return {
    send: (message) =>
      socket.send(
        typeof message === "string" || message instanceof Uint8Array
          ? message
          : JSON.stringify(message),
      ),
    texts,
    closed: new Promise((resolve) => socket.on("close", resolve)),
    stopReading: () => socket.pause(),
    readOn: () => socket.resume(),
    close: () => socket.terminate(),
  };
}

/** Resolves as soon as `holds`; fails after twenty seconds, which only a busy machine needs a part of. */
export async function until(holds: () => boolean, what: string): Promise<void> {
  const deadline = performance.now() + 20_000;
  while (!holds()) {
    if (performance.now() > deadline) throw new Error(`Did not happen: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}
