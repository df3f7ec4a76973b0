import type { Codec, ToMain, ToWorld } from "./wire.ts";

// Both functions below travel to the page as text, so they use nothing from outside themselves.

interface WorldOptions {
  /** Name of the window event by which the two worlds of a page find each other. */
  readonly bridge: string;
  /** Name of the DevTools binding that reaches the main side. */
  readonly binding: string;
  readonly platform: string;
}

/** The source of the script that runs the preload in a world of its own, before the page's scripts. */
export function preloadScript(options: WorldOptions, codec: string, preload: string): string {
  // A function around the preload keeps its top-level names from colliding with anything.
  const wrapped = `function (require, process, module, exports) {\n${preload}\n}`;
  return `if (window === window.top) (${runPreload})(${JSON.stringify(options)}, (${codec})(), ${wrapped});`;
}

/** The source of the script that gives the page what the preload exposes. */
export function pageScript(bridge: string, codec: string): string {
  return `if (window === window.top) (${receiveExposed})(${JSON.stringify(bridge)}, (${codec})());`;
}

type Preload = (
  require: (name: string) => unknown,
  process: { readonly platform: string; readonly sandboxed: true },
  module: { exports: object },
  exports: object,
) => void;
type Listener = (event: { readonly ports: readonly MessagePort[] }, ...values: unknown[]) => void;

/** Electron's renderer modules, as far as a sandboxed preload of ours uses them. */
function runPreload(options: WorldOptions, codec: Codec, preload: Preload): void {
  const world: Record<string, unknown> = globalThis as never;
  const toMain = world[options.binding] as (text: string) => void;
  const tell = (message: ToMain) => toMain(JSON.stringify(message));
  const listeners = new Map<string, Listener[]>();
  const answers = new Map<number, { resolve(value: unknown): void; reject(error: Error): void }>();
  const ports = new Map<number, MessagePort>();
  const exposed = new Map<string, object>();
  const closeSign = `${options.bridge}:close`;
  let lastId = 0;

  const portFor = (id: number): MessagePort => {
    const { port1, port2 } = new MessageChannel();
    ports.set(id, port1);
    port1.addEventListener("message", ({ data }) => {
      if (data !== closeSign) tell({ kind: "port-message", port: id, value: codec.encode(data) });
      else if (ports.delete(id)) tell({ kind: "port-close", port: id });
    });
    port1.start();
    return port2;
  };
  const receive = (text: string) => {
    const message: ToWorld = JSON.parse(text);
    switch (message.kind) {
      case "event": {
        const event = { ports: message.ports.map(portFor) };
        const values = codec.decode(message.values) as unknown[];
        for (const listener of listeners.get(message.channel) ?? []) listener(event, ...values);
        return;
      }
      case "answer":
        answers.get(message.id)?.resolve(codec.decode(message.value));
        answers.delete(message.id);
        return;
      case "failure":
        answers.get(message.id)?.reject(new Error(message.message));
        answers.delete(message.id);
        return;
      case "port-message":
        ports.get(message.port)?.postMessage(codec.decode(message.value));
        return;
      case "port-close":
        ports.get(message.port)?.postMessage(closeSign);
        ports.delete(message.port);
    }
  };
  Object.defineProperty(globalThis, `${options.binding}_receive`, { value: receive });

  const ipcRenderer = {
    on: (channel: string, listener: Listener) => {
      listeners.set(channel, [...(listeners.get(channel) ?? []), listener]);
    },
    send: (channel: string, ...values: unknown[]) =>
      tell({ kind: "send", channel, values: codec.encode(values) }),
    invoke: (channel: string, ...values: unknown[]) => {
      const id = ++lastId;
      tell({ kind: "invoke", id, channel, values: codec.encode(values) });
      return new Promise((resolve, reject) => answers.set(id, { resolve, reject }));
    },
  };

  const say = (name: string, detail: string) =>
    window.dispatchEvent(new CustomEvent(`${options.bridge}:${name}`, { detail }));
  const outline = (value: unknown): unknown => {
    if (typeof value === "function") return { kind: "function" };
    if (typeof value !== "object" || value === null) return { kind: "value", value };
    const members = Object.entries(value).map(([key, member]) => [key, outline(member)]);
    return { kind: "object", members };
  };
  const expose = (key: string, api: object) =>
    say("expose", JSON.stringify({ key, outline: outline(api) }));
  const contextBridge = {
    exposeInMainWorld: (key: string, api: object) => {
      exposed.set(key, api);
      expose(key, api);
    },
  };
  window.addEventListener(`${options.bridge}:ready`, () => {
    for (const [key, api] of exposed) expose(key, api);
  });
  window.addEventListener(`${options.bridge}:call`, (event) => {
    const { id, path, values } = JSON.parse((event as CustomEvent<string>).detail);
    const done = (name: string, value: unknown) =>
      say(name, JSON.stringify({ id, value: codec.encode(value) }));
    const failed = (error: unknown) => say("throw", JSON.stringify({ id, message: String(error) }));
    try {
      let called: unknown = Object.fromEntries(exposed);
      for (const name of path) called = (called as Record<string, unknown>)[name];
      const result = (called as (...values: unknown[]) => unknown)(
        ...(codec.decode(values) as unknown[]),
      );
      if (!(result instanceof Promise)) return done("return", result);
      say("promise", JSON.stringify({ id }));
      result.then((value) => done("return", value)).catch(failed);
    } catch (error) {
      failed(error);
    }
  });

  document.addEventListener("DOMContentLoaded", () => {
    const tellTitle = () => tell({ kind: "title", title: document.title });
    const everything = { childList: true, characterData: true, subtree: true };
    if (document.head !== null) new MutationObserver(tellTitle).observe(document.head, everything);
    tellTitle();
  });

  const modules: Record<string, unknown> = { electron: { contextBridge, ipcRenderer } };
  const require = (name: string) => {
    if (name in modules) return modules[name];
    throw new Error(`A sandboxed preload may not require "${name}".`);
  };
  try {
    const module = { exports: {} };
    preload(require, { platform: options.platform, sandboxed: true }, module, module.exports);
  } catch (error) {
    tell({ kind: "preload-error", message: String(error) });
  }
}

/** Rebuilds in the page's own world what the preload exposed: frozen, and functions only by call. */
function receiveExposed(bridge: string, codec: Codec): void {
  type Outline =
    | { kind: "function" }
    | { kind: "value"; value: unknown }
    | { kind: "object"; members: [string, Outline][] };
  interface Settle {
    resolve(value: unknown): void;
    reject(error: Error): void;
  }
  const pending = new Map<number, Settle>();
  let lastId = 0;
  type Outcome = { returned: unknown } | { failed: string } | { promised: true };
  // The other world answers by events while a call is under way.
  const answered: Outcome[] = [];

  const listen = (name: string, react: (detail: never) => unknown) =>
    window.addEventListener(`${bridge}:${name}`, (event) =>
      react(JSON.parse((event as CustomEvent<string>).detail) as never),
    );
  const call = (path: readonly string[], values: unknown[]): unknown => {
    const id = ++lastId;
    const detail = JSON.stringify({ id, path, values: codec.encode(values) });
    window.dispatchEvent(new CustomEvent(`${bridge}:call`, { detail }));
    const now = answered.pop();
    if (now === undefined) throw new Error("The preload's world did not answer.");
    if ("failed" in now) throw new Error(now.failed);
    if ("returned" in now) return now.returned;
    return new Promise((resolve, reject) => pending.set(id, { resolve, reject }));
  };
  const build = (outline: Outline, path: readonly string[]): unknown => {
    if (outline.kind === "function") return (...values: unknown[]) => call(path, values);
    if (outline.kind === "value") return outline.value;
    const members = outline.members.map(([key, member]) => [key, build(member, [...path, key])]);
    return Object.freeze(Object.fromEntries(members));
  };
  listen("expose", ({ key, outline }: { key: string; outline: Outline }) => {
    if (key in window) return;
    Object.defineProperty(window, key, { value: build(outline, [key]), enumerable: true });
  });
  listen("return", ({ id, value }: { id: number; value: string }) => {
    const settle = pending.get(id);
    pending.delete(id);
    if (settle === undefined) answered.push({ returned: codec.decode(value) });
    else settle.resolve(codec.decode(value));
  });
  listen("throw", ({ id, message }: { id: number; message: string }) => {
    const settle = pending.get(id);
    pending.delete(id);
    if (settle === undefined) answered.push({ failed: message });
    else settle.reject(new Error(message));
  });
  listen("promise", () => answered.push({ promised: true }));
  window.dispatchEvent(new CustomEvent(`${bridge}:ready`));

  // Electron tells a port when its other end has closed; a browser does not. So either end says it in
  // words that only the stand-in knows, and this listener, the first on every port, makes it an event.
  const closeSign = `${bridge}:close`;
  window.addEventListener("message", ({ ports }) => {
    for (const port of ports) {
      port.addEventListener("message", (event) => {
        if (event.data !== closeSign) return;
        event.stopImmediatePropagation();
        MessagePort.prototype.close.call(port);
        port.dispatchEvent(new Event("close"));
      });
      port.close = () => {
        port.postMessage(closeSign);
        MessagePort.prototype.close.call(port);
      };
    }
  });
}
