import type { Readable, Writable } from "node:stream";
import type { Protocol } from "../../node_modules/playwright-core/types/protocol.d.ts";

export type { Protocol };

type Listener = (params: never) => void;
interface Incoming {
  readonly id?: number;
  readonly sessionId?: string;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly message: string };
}

/** One DevTools session: with the browser as a whole or with one page. */
export class DevtoolsSession {
  readonly #connection: DevtoolsPipe;
  readonly #sessionId: string | undefined;
  readonly #listeners = new Map<string, Listener[]>();

  constructor(connection: DevtoolsPipe, sessionId?: string) {
    this.#connection = connection;
    this.#sessionId = sessionId;
  }

  send<Method extends keyof Protocol.CommandParameters>(
    method: Method,
    params?: Protocol.CommandParameters[Method],
  ): Promise<Protocol.CommandReturnValues[Method]> {
    // The browser answers each method with the value that its protocol file declares.
    return this.#connection.send(method, params, this.#sessionId) as Promise<
      Protocol.CommandReturnValues[Method]
    >;
  }

  on<Name extends keyof Protocol.Events>(
    name: Name,
    listener: (params: Protocol.Events[Name]) => void,
  ): void {
    const listeners = this.#listeners.get(name) ?? [];
    // Kept by name and only ever called with what that name's event carries.
    listeners.push(listener as Listener);
    this.#listeners.set(name, listeners);
  }

  /** For the connection: an event came in. */
  receive(name: string, params: unknown): void {
    for (const listener of this.#listeners.get(name) ?? []) listener(params as never);
  }
}

/** The DevTools connection over a browser's own pipes: it ends with this process, however that ends. */
export class DevtoolsPipe {
  readonly browser: DevtoolsSession;
  readonly #sessions = new Map<string, DevtoolsSession>();
  readonly #waiting = new Map<number, PromiseWithResolvers<unknown>>();
  readonly #out: Writable;
  #lastId = 0;

  constructor(out: Writable, back: Readable) {
    this.#out = out;
    this.browser = new DevtoolsSession(this);
    let rest: Buffer[] = [];
    back.on("data", (chunk: Buffer) => {
      let start = 0;
      for (let end = chunk.indexOf(0); end >= 0; end = chunk.indexOf(0, start)) {
        rest.push(chunk.subarray(start, end));
        this.#receive(Buffer.concat(rest).toString("utf8"));
        rest = [];
        start = end + 1;
      }
      rest.push(chunk.subarray(start));
    });
    back.on("close", () => this.#fail());
    out.on("error", () => this.#fail());
  }

  session(sessionId: string): DevtoolsSession {
    const session = this.#sessions.get(sessionId) ?? new DevtoolsSession(this, sessionId);
    this.#sessions.set(sessionId, session);
    return session;
  }

  send(method: string, params: unknown, sessionId: string | undefined): Promise<unknown> {
    const id = ++this.#lastId;
    const waiting = Promise.withResolvers<unknown>();
    this.#waiting.set(id, waiting);
    this.#out.write(`${JSON.stringify({ id, method, params: params ?? {}, sessionId })}\0`);
    return waiting.promise;
  }

  #receive(text: string): void {
    const message: Incoming = JSON.parse(text);
    if (message.id === undefined) {
      const { sessionId } = message;
      const session = sessionId === undefined ? this.browser : this.#sessions.get(sessionId);
      session?.receive(message.method ?? "", message.params);
      return;
    }
    const waiting = this.#waiting.get(message.id);
    this.#waiting.delete(message.id);
    if (message.error === undefined) waiting?.resolve(message.result);
    else waiting?.reject(new Error(message.error.message));
  }

  #fail(): void {
    for (const { reject } of this.#waiting.values()) reject(new Error("The browser has gone."));
    this.#waiting.clear();
  }
}
