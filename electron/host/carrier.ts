import { randomUUID } from "node:crypto";
import type { AnyContractProcedure, ContractRouterClient } from "@orpc/contract";
import { createRouterClient, implement, ORPCError } from "@orpc/server";
import { RPCHandler } from "@orpc/server/websocket";
import { z } from "zod";
import { longestMessageBytes, type Procedures, procedures } from "../../shared/api/procedures.ts";
import type { CallContext, Handlers } from "../services/base/handlers.ts";
import { Missing, Refusal } from "../services/base/refusal.ts";

export interface CarrierOptions {
  /** Takes one line for each failure that is not the caller's doing. Standard error by default. */
  readonly log?: (line: string) => void;
}

/** One page's line while it is served. */
export interface Served {
  readonly clientId: string;
  /** Ends its calls and streams and closes the line. */
  close(): void;
}

/** Why a line was closed by this side, as WebSocket close codes; a port only closes. */
export const closeCodes = {
  stopping: 1001,
  notText: 1003,
  tooLong: 1009,
  notUnderstood: 4400,
  tooManyCalls: 4429,
} as const;
type CloseReason = keyof typeof closeCodes;

/** Calls and streams that one page may have under way. A page of ours has a dozen. */
const mostCallsUnderWay = 500;

/** How much may be on the way to a page that does not read, in UTF-16 units; then streams wait. */
const mostUnread = 256 * 1024;

/** A socket of the `ws` package, as far as it is used here. */
export interface ServerSocket {
  send(text: string, sent: (error?: Error | null) => void): void;
  close(code: number, reason: string): void;
  on(
    event: "message",
    listener: (data: { toString(): string }, isBinary: boolean) => void,
  ): unknown;
  on(event: "close", listener: () => void): unknown;
  on(event: "error", listener: (error: Error) => void): unknown;
}

/** A MessagePort of Node or of Electron's main process, as far as it is used here. */
export interface ServerPort {
  start(): void;
  postMessage(message: unknown): void;
  close(): void;
  on(event: "message", listener: (message: unknown) => void): unknown;
  on(event: "close", listener: () => void): unknown;
}

/**
 * Serves the API over one WebSocket until it closes. The socket's own limit on incoming messages must be
 * `longestMessageBytes`.
 */
export function serveSocket(
  socket: ServerSocket,
  handlers: Handlers,
  options: CarrierOptions = {},
): Served {
  const line = serveLine(handlers, options, {
    // Resolves when the text has left for the kernel, so a reader that does not read holds its streams up.
    send: (text) =>
      new Promise((resolve, reject) => {
        socket.send(text, (error) => (error ? reject(error) : resolve()));
      }),
    close: (reason) => socket.close(closeCodes[reason], reason),
  });
  socket.on("message", (data, isBinary) => line.receive(isBinary ? null : data.toString()));
  socket.on("close", line.gone);
  // A broken or oversize frame is told here, then as a close.
  socket.on("error", () => undefined);
  return line.served;
}

/**
 * Serves the API over one port until it closes. The page answers each text with its length (a number), so
 * that this side knows how much is still unread.
 */
export function servePort(
  port: ServerPort,
  handlers: Handlers,
  options: CarrierOptions = {},
): Served {
  const unread = unreadGauge(mostUnread);
  const line = serveLine(handlers, options, {
    send: async (text) => {
      await unread.room();
      unread.add(text.length);
      port.postMessage(text);
    },
    close: () => port.close(),
  });
  port.on("message", (message) => {
    const data = contentOf(message);
    if (typeof data === "number") unread.remove(data);
    else line.receive(data);
  });
  port.on("close", () => {
    unread.giveUp();
    line.gone();
  });
  port.start();
  return line.served;
}

/** The API without any line, for this very process; validated and failing like the others. */
export function callDirectly(
  handlers: Handlers,
  options: CarrierOptions = {},
): ContractRouterClient<Procedures> {
  const client: unknown = createRouterClient(routerOf(handlers), {
    context: { clientId: randomUUID() },
    interceptors: [failuresTyped(options.log ?? console.error)],
  });
  // The router was made from `procedures`, name by name.
  return client as ContractRouterClient<Procedures>;
}

interface Wire {
  send(text: string): Promise<void>;
  close(reason: CloseReason): void;
}

const id = z.string().min(1).max(40);
/** Plain data and, the library's way, the places of what is `undefined`; it would revive regular expressions too. */
const content = z.strictObject({
  json: z.unknown().optional(),
  meta: z.array(z.tuple([z.literal(3)], z.union([z.string(), z.number()]))).optional(),
});
/** What a page may send: a call, or taking one back. Anything else is not from our page. */
const messageSchema = z.union([
  z.strictObject({
    i: id,
    p: z.strictObject({ u: z.string().regex(/^\/[\w/-]{1,120}$/), b: content.optional() }),
  }),
  z.strictObject({ i: id, t: z.literal(4) }),
]);

function serveLine(handlers: Handlers, { log = console.error }: CarrierOptions, wire: Wire) {
  const clientId = randomUUID();
  const api = new RPCHandler(routerOf(handlers), {
    clientInterceptors: [failuresTyped(log)],
  });
  const peer = { send: wire.send, addEventListener: () => undefined };
  const underWay = new Set<string>();
  let open = true;

  const gone = () => {
    open = false;
    api.close(peer);
  };
  const close = (reason: CloseReason) => {
    if (!open) return;
    gone();
    wire.close(reason);
  };

  async function answer(text: string, callId: string): Promise<void> {
    underWay.add(callId);
    try {
      await api.message(peer, text, { context: { clientId } });
    } catch (error) {
      // Sending failed because the page went away; its close is on the way.
      if (open) log(traceOf("line", error));
    } finally {
      underWay.delete(callId);
    }
  }

  const receive = (text: unknown) => {
    if (!open) return;
    if (typeof text !== "string") return close("notText");
    if (Buffer.byteLength(text) > longestMessageBytes) return close("tooLong");
    const message = messageSchema.safeParse(parsed(text));
    if (!message.success) return close("notUnderstood");
    if ("t" in message.data) {
      void api.message(peer, text, { context: { clientId } });
      return;
    }
    // The library ignores an id that is under way; counting it again would end the count too early.
    if (underWay.has(message.data.i)) return;
    if (underWay.size >= mostCallsUnderWay) return close("tooManyCalls");
    void answer(text, message.data.i);
  };

  const served: Served = { clientId, close: () => close("stopping") };
  return { served, receive, gone };
}

type Caller = Pick<CallContext, "clientId">;

/** Binds each declared procedure to its handler; a declared procedure without one is a mistake told at once. */
function routerOf(handlers: Handlers) {
  const declared: Readonly<Record<string, Readonly<Record<string, AnyContractProcedure>>>> =
    procedures;
  // The library validates the input before it gets here, so a handler's own type of input holds.
  const plain = handlers as unknown as Readonly<Record<string, Record<string, PlainHandler>>>;
  const bind = (subject: string, name: string, procedure: AnyContractProcedure) => {
    if (plain[subject]?.[name] === undefined) throw new Error(`No handler for ${subject}.${name}.`);
    return implement(procedure)
      .$context<Caller>()
      .handler(async ({ input, context: { clientId }, signal = never }) => {
        const output = await plain[subject]?.[name]?.(input, { clientId, signal });
        return isStream(output) ? untilAborted(output, signal) : output;
      });
  };
  return mapEntries(declared, (names, subject) =>
    mapEntries(names, (procedure, name) => bind(subject, name, procedure)),
  );
}

type PlainHandler = (input: unknown, context: CallContext) => unknown;

/** Signal of a caller who cannot cancel. */
const never = new AbortController().signal;

/** The library's hook around a call, as far as it is used here. */
interface Call {
  readonly path: readonly string[];
  readonly signal?: AbortSignal | undefined;
  next(): Promise<unknown>;
}

/** Makes every failure of a call, or later of its stream, one that shared/api declares. */
function failuresTyped(log: (line: string) => void) {
  return async ({ next, path, signal }: Call): Promise<unknown> => {
    try {
      const output = await orAborted(next(), signal);
      return isStream(output) ? itemsTyped(output, path, log, signal) : output;
    } catch (error) {
      throw typed(error, path, log, signal);
    }
  };
}

async function* itemsTyped(
  stream: AsyncIterable<unknown>,
  path: readonly string[],
  log: (line: string) => void,
  signal: AbortSignal | undefined,
): AsyncGenerator<unknown, void> {
  try {
    for await (const item of stream) yield item;
  } catch (error) {
    throw typed(error, path, log, signal);
  }
}

function typed(
  error: unknown,
  path: readonly string[],
  log: (line: string) => void,
  signal: AbortSignal | undefined,
): ORPCError<string, unknown> {
  if (error instanceof Refusal) {
    const { code, values, message } = error;
    return new ORPCError("REFUSED", { status: 409, message, data: { code, values } });
  }
  if (error instanceof Missing) {
    const { what, message } = error;
    return new ORPCError("MISSING", { status: 404, message, data: { what } });
  }
  if (error instanceof ORPCError && error.code === "BAD_REQUEST") return badRequest(error);
  const reference = randomUUID().slice(0, 8);
  // A caller that has gone away often fails what it was waiting for; nobody is left to tell.
  if (!signal?.aborted) log(`[${reference}] ${traceOf(path.join("."), error)}`);
  return new ORPCError("FAILED", {
    status: 500,
    message: `Something went wrong inside the app (reference ${reference}). Try again; if it happens again, restart the app.`,
    data: { reference },
  });
}

const issuesSchema = z.object({
  issues: z.array(
    z.object({
      code: z.string().optional(),
      path: z.array(z.union([z.string(), z.number()])),
      message: z.string(),
    }),
  ),
});
/** More tell nobody more, and an answer must not grow with what was sent. */
const mostIssues = 20;

/** Keeps where and why of each issue, and nothing of what was sent: the sender's own keys neither. */
function badRequest(error: ORPCError<string, unknown>): ORPCError<string, unknown> {
  const found = issuesSchema.safeParse(error.data).data?.issues ?? [];
  const issues = found.slice(0, mostIssues).map(({ code, path, message }) => {
    if (code === "unrecognized_keys") return { path, message: "Unknown keys" };
    return { path: code === "invalid_key" ? path.slice(0, -1) : path, message };
  });
  const where = issues.map(({ path, message }) => `${path.join(".") || "input"}: ${message}`);
  return new ORPCError("BAD_REQUEST", {
    message: `The app did not accept what was sent. ${where.join("; ")}`.trim(),
    data: { issues },
  });
}

/**
 * What kind of error was thrown and where. Its message stays out of the log: it may quote what was typed
 * in, and that can be a child's name.
 */
function traceOf(what: string, error: unknown): string {
  if (!(error instanceof Error)) return `${what} failed with something that is no Error`;
  const code = "code" in error ? ` ${String(error.code)}` : "";
  const frames = (error.stack ?? "").split("\n").filter((line) => /^\s+at /.test(line));
  const cause = error.cause === undefined ? "" : `\ncaused by ${traceOf("", error.cause)}`;
  return [`${what} failed: ${error.name}${code}`, ...frames].join("\n") + cause;
}

/** What was called for, unless the caller is gone first, even when the handler does not listen. */
function orAborted<Output>(output: Promise<Output>, signal: AbortSignal = never): Promise<Output> {
  return new Promise((resolve, reject) => {
    const leave = () => reject(signal.reason);
    if (signal.aborted) leave();
    signal.addEventListener("abort", leave, { once: true });
    output.then(resolve, reject).finally(() => signal.removeEventListener("abort", leave));
  });
}

/** The stream's items until it ends or the caller is gone, even when the stream does not listen. */
async function* untilAborted(
  stream: AsyncIterable<unknown>,
  signal: AbortSignal,
): AsyncGenerator<unknown, void> {
  const items = stream[Symbol.asyncIterator]();
  try {
    while (!signal.aborted) {
      const step = await orAborted(items.next(), signal);
      if (step.done) return;
      yield step.value;
    }
  } catch (error) {
    if (!signal.aborted) throw error;
  } finally {
    // Not awaited: a stream that is still waiting for its next item would hold everybody up.
    void Promise.resolve(items.return?.()).catch(() => undefined);
  }
}

/** Counts what is on the way; `room` resolves when there is room for more. */
function unreadGauge(most: number) {
  let unread = 0;
  let waiting: (() => void)[] = [];
  const release = () => {
    const ready = waiting;
    waiting = [];
    for (const go of ready) go();
  };
  return {
    add: (length: number) => {
      unread += length;
    },
    remove: (length: number) => {
      // A page that claims to have read what it was not sent gains nothing.
      unread = Math.max(0, unread - Math.max(0, length));
      if (unread < most) release();
    },
    giveUp: () => {
      unread = Number.NEGATIVE_INFINITY;
      release();
    },
    async room(): Promise<void> {
      while (unread >= most) await new Promise<void>((go) => waiting.push(go));
    },
  };
}

function isStream(value: unknown): value is AsyncIterable<unknown> {
  return typeof value === "object" && value !== null && Symbol.asyncIterator in value;
}

/** Node hands over the message itself, Electron an event that holds it. */
function contentOf(message: unknown): unknown {
  return typeof message === "object" && message !== null && "data" in message
    ? message.data
    : message;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function mapEntries<Value, Result>(
  record: Readonly<Record<string, Value>>,
  change: (value: Value, key: string) => Result,
): Record<string, Result> {
  return Object.fromEntries(
    Object.entries(record).map(([key, value]) => [key, change(value, key)]),
  );
}
