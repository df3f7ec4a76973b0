import { ORPCError } from "@orpc/client";
import { RPCLink } from "@orpc/client/websocket";
import type { Scope } from "../../shared/api/entry.ts";
import { refusalCodes } from "../../shared/api/errors.ts";
import { longestMessageBytes, procedures } from "../../shared/api/procedures.ts";
import type { ShellBridge } from "../../shared/api/shell.ts";
import type { Api, CallOptions, Link } from "./api.ts";
import { ApiError, type ApiFailure, type InputIssue, unreachable } from "./api-error.ts";
import { keepConnected, type Patience, usualPatience } from "./connection.ts";
import { enter, NotLetIn } from "./enter.ts";
import { follow } from "./follow.ts";
import { assertFits, type Line, type OpenLine, openPortLine, openSocketLine } from "./line.ts";
import { keepTicket, keptTicket } from "./ticket.ts";

export type { Api, CallOptions, Followed, FollowState, Link, LinkState } from "./api.ts";
export { ApiError, type ApiFailure, isRefusal, isUnreachable } from "./api-error.ts";

declare global {
  interface Window {
    /** Set by the preload inside Electron only. */
    readonly pebblechime?: ShellBridge;
  }
}

/** The page's line to the desktop side: a port inside Electron, a socket in a browser. */
export function connect(): Link {
  const bridge = window.pebblechime;
  const link =
    bridge === undefined
      ? linkOver(openOwnSocket, usualPatience, keptTicket()?.scope)
      : // The main process decides; until it has said so, the address tells what will be shown.
        linkOver(
          () => openPortLine(bridge, window),
          usualPatience,
          window.location.pathname === classPath ? "class" : "teacher",
        );
  document.addEventListener("visibilitychange", () => link.retryNow());
  own = link;
  return link;
}

/** Where the desktop app shows the class screen. */
const classPath = "/tiles";

let own: Link | null = null;

/** Resolves as soon as the page's own line is open, however long that takes. */
export function whenOpen(): Promise<void> {
  return new Promise((resolve) => {
    if (own === null || own.state() === "open") return resolve();
    const stop = own.onState((state) => {
      if (state !== "open") return;
      stop();
      resolve();
    });
  });
}

/** A socket to where the page came from, once that has proved to be the host that let the page in. */
async function openOwnSocket(): Promise<Line> {
  const ticket = keptTicket();
  if (ticket === null) throw new NotLetIn("uninvited");
  const line = await openSocketLine(`ws://${window.location.host}/api`);
  try {
    const kept = await enter(line, ticket);
    keepTicket(kept);
    return { ...line, scope: kept.scope };
  } catch (error) {
    line.close();
    throw error;
  }
}

/**
 * The API over any line, opened again whenever it goes down.
 * @param open opens one line
 * @param patience how long to wait between attempts, and for a call's line
 * @param first what the line will open, as far as is known before it is open
 */
export function linkOver(
  open: OpenLine,
  patience: Patience = usualPatience,
  first: Scope = "teacher",
): Link {
  let scope = first;
  const { line, renew, ...connection } = keepConnected(async () => {
    const opened = await open();
    scope = opened.scope ?? scope;
    return linked(opened);
  }, patience);
  const api = apiCalling(async (path, input, { signal }) => {
    const { call } = await line(signal);
    return call(path, input, signal);
  });
  return {
    ...connection,
    api,
    scope: () => scope,
    renew: (next) => {
      scope = next;
      renew();
    },
    follow: (stream) => follow(api, stream),
  };
}

/** Carries one call out: the answer, or an async iterator for a stream. */
export type CallProcedure = (
  path: readonly string[],
  input: unknown,
  options: CallOptions,
) => Promise<unknown>;

/** Shapes a way of calling into the API, with the page's own errors. */
export function apiCalling(call: CallProcedure): Api {
  const subjects = Object.entries(procedures).map(([subject, names]) => [
    subject,
    Object.fromEntries(
      Object.keys(names).map((name) => [
        name,
        (input?: unknown, options: CallOptions = {}) =>
          answer(call, [subject, name], input, options),
      ]),
    ),
  ]);
  // The functions are made by name from the very declaration that Api is inferred from.
  return Object.fromEntries(subjects) as Api;
}

async function answer(
  call: CallProcedure,
  path: readonly string[],
  input: unknown,
  options: CallOptions,
): Promise<unknown> {
  try {
    const output = await call(path, input, options);
    return isStream(output) ? items(output, path, options.signal) : output;
  } catch (error) {
    throw whatFailed(error, path, options.signal);
  }
}

async function* items(
  stream: AsyncIterable<unknown>,
  path: readonly string[],
  signal: AbortSignal | undefined,
): AsyncGenerator<unknown, void> {
  try {
    for await (const item of stream) yield item;
  } catch (error) {
    throw whatFailed(error, path, signal);
  }
}

function isStream(output: unknown): output is AsyncIterable<unknown> {
  return typeof output === "object" && output !== null && Symbol.asyncIterator in output;
}

/** The library's link over one line; it asks for a socket, of which it uses this much. */
function linked(line: Line) {
  const link = new RPCLink({ websocket: new LineSocket(line) });
  const gone = new AbortController();
  line.onClose(() => gone.abort());
  return {
    /** Rejects when the line closes, in whatever state the library holds the call. */
    call: (path: readonly string[], input: unknown, signal?: AbortSignal) =>
      new Promise<unknown>((resolve, reject) => {
        const fail = () => reject(unreachable());
        if (gone.signal.aborted) return fail();
        gone.signal.addEventListener("abort", fail);
        link
          .call([...path], input, signal === undefined ? { context: {} } : { context: {}, signal })
          .then(resolve, reject)
          .finally(() => gone.signal.removeEventListener("abort", fail));
      }),
    onClose: (listener: () => void) => line.onClose(listener),
    close: () => line.close(),
  };
}

class LineSocket extends EventTarget {
  readonly #line: Line;
  /**
   * Always "open" to the library, and `send` lets what is too late be lost: the library would throw where
   * nobody listens when a call is cancelled while the line goes down. Calls under way end by the close.
   */
  readonly readyState = 1;

  constructor(line: Line) {
    super();
    this.#line = line;
    line.onClose(() => this.dispatchEvent(new Event("close")));
    line.read((data) => this.dispatchEvent(new MessageEvent("message", { data })));
  }

  send(message: unknown): void {
    if (typeof message !== "string") throw new TypeError("Only text crosses the line.");
    assertFits(message, longestMessageBytes);
    this.#line.send(message);
  }
}

/** Turns whatever a call threw into the page's own error. */
function whatFailed(
  error: unknown,
  path: readonly string[],
  signal: AbortSignal | undefined,
): unknown {
  if (signal?.aborted) return signal.reason;
  if (error instanceof ApiError) return error;
  if (error instanceof ORPCError) return new ApiError(failureOf(error, path), error.message);
  return unreachable();
}

function failureOf(error: ORPCError<string, unknown>, path: readonly string[]): ApiFailure {
  const data = fieldsOf(error.data);
  switch (error.code) {
    case "REFUSED": {
      const code = refusalCodes.find((known) => known === data.code);
      if (code === undefined) break;
      return { kind: "refused", code, values: valuesOf(data.values) };
    }
    case "MISSING":
      return { kind: "missing", what: String(data.what ?? "") };
    case "BAD_REQUEST":
    case "PAYLOAD_TOO_LARGE":
      return { kind: "bad-input", issues: issuesOf(data.issues) };
    case "NOT_FOUND":
      // Page and desktop side are of different versions.
      return { kind: "failed", reference: `unknown procedure ${path.join(".")}` };
  }
  return { kind: "failed", reference: String(data.reference ?? error.code) };
}

function fieldsOf(data: unknown): Readonly<Record<string, unknown>> {
  return typeof data === "object" && data !== null ? { ...data } : {};
}

function valuesOf(values: unknown): Readonly<Record<string, string | number>> {
  const known = Object.entries(fieldsOf(values)).filter(
    (entry): entry is [string, string | number] =>
      typeof entry[1] === "string" || typeof entry[1] === "number",
  );
  return Object.fromEntries(known);
}

function issuesOf(issues: unknown): readonly InputIssue[] {
  if (!Array.isArray(issues)) return [];
  return issues.map((issue) => {
    const { path, message } = fieldsOf(issue);
    return {
      path: Array.isArray(path) ? path.join(".") : "",
      message: typeof message === "string" ? message : "not accepted",
    };
  });
}
