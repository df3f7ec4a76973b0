import type { Scope } from "../../shared/api/entry.ts";
import { portMessage } from "../../shared/api/port-message.ts";
import type { ShellBridge } from "../../shared/api/shell.ts";
import { ApiError, unreachable } from "./api-error.ts";

/** An open two-way line that carries text, whatever it is made of. */
export interface Line {
  /** What it opens; everything when it is left out. */
  readonly scope?: Scope;
  /** Never throws: on a line that is going down the text is lost, and the close is told next. */
  send(text: string): void;
  /** The one reader; texts that came before it are given to it first. */
  read(onText: (text: string) => void): void;
  /** Told once; at once when the line is already closed. */
  onClose(listener: () => void): void;
  close(): void;
}

export type OpenLine = () => Promise<Line>;

/** How long an attempt to open a line may take before it counts as failed. */
const openingMs = 10_000;

/**
 * Opens a WebSocket line.
 * @param address a ws: or wss: address
 * @returns the open line; rejects with UNREACHABLE when it does not open
 */
export function openSocketLine(address: string): Promise<Line> {
  return new Promise((resolve, reject) => {
    const socket = new WebSocket(address);
    const giveUp = setTimeout(() => socket.close(), openingMs);
    const closed = closing();
    const texts = reading();
    socket.addEventListener("message", ({ data }) => {
      if (typeof data === "string") texts.put(data);
    });
    socket.addEventListener("close", () => {
      clearTimeout(giveUp);
      closed.happen();
      reject(unreachable());
    });
    socket.addEventListener("open", () => {
      clearTimeout(giveUp);
      resolve({
        send: (text) => {
          if (socket.readyState === WebSocket.OPEN) socket.send(text);
        },
        read: texts.read,
        onClose: closed.listen,
        close: () => socket.close(),
      });
    });
  });
}

/**
 * A line over a MessagePort whose other end the desktop side holds. Each text received is answered by its
 * length, so that the desktop side knows how much is still on the way and waits for a page that is busy.
 */
export function portLine(port: MessagePort): Line {
  const closed = closing();
  const texts = reading();
  port.addEventListener("message", ({ data }) => {
    if (typeof data !== "string") return;
    port.postMessage(data.length);
    texts.put(data);
  });
  port.addEventListener("close", closed.happen);
  port.start();
  return {
    send: (text) => {
      if (!closed.happened()) port.postMessage(text);
    },
    read: texts.read,
    onClose: closed.listen,
    close: () => {
      port.close();
      closed.happen();
    },
  };
}

/**
 * Asks the preload for a port and waits for it. Only a message from this very window and origin counts:
 * a frame or an opener could post one that looks the same.
 */
export function openPortLine(bridge: Pick<ShellBridge, "openPort">, page: Window): Promise<Line> {
  return new Promise((resolve, reject) => {
    let port: MessagePort | null = null;
    let scope: Scope | null = null;
    const stop = () => {
      clearTimeout(giveUp);
      page.removeEventListener("message", receive);
    };
    const settle = () => {
      if (port === null || scope === null) return;
      stop();
      resolve({ ...portLine(port), scope });
    };
    const receive = (event: MessageEvent<unknown>) => {
      if (event.source !== page || event.origin !== page.location.origin) return;
      const [arrived] = event.ports;
      if (!isPortMessage(event.data) || arrived === undefined) return;
      port = arrived;
      settle();
    };
    const fail = () => {
      stop();
      reject(unreachable());
    };
    const giveUp = setTimeout(fail, openingMs);
    page.addEventListener("message", receive);
    bridge.openPort().then((outcome) => {
      if (outcome.kind === "failed") return fail();
      scope = outcome.scope;
      settle();
    }, fail);
  });
}

/** Refuses a text that is longer than the desktop side would read; UTF-8 can need three bytes a unit. */
export function assertFits(text: string, longestBytes: number): void {
  if (text.length * 3 <= longestBytes) return;
  if (new TextEncoder().encode(text).length <= longestBytes) return;
  const issue = { path: "", message: `longer than ${longestBytes} bytes` };
  throw new ApiError(
    { kind: "bad-input", issues: [issue] },
    "This is too much to send at once. Send it in smaller parts.",
  );
}

function isPortMessage(data: unknown): boolean {
  return typeof data === "object" && data !== null && "kind" in data && data.kind === portMessage;
}

function closing() {
  const listeners: (() => void)[] = [];
  let done = false;
  return {
    happened: () => done,
    happen: () => {
      if (done) return;
      done = true;
      for (const listener of listeners) listener();
    },
    listen: (listener: () => void) => {
      if (done) listener();
      else listeners.push(listener);
    },
  };
}

function reading() {
  const early: string[] = [];
  let reader: ((text: string) => void) | null = null;
  return {
    put: (text: string) => {
      if (reader === null) early.push(text);
      else reader(text);
    },
    read: (onText: (text: string) => void) => {
      reader = onText;
      for (const text of early.splice(0)) onText(text);
    },
  };
}
