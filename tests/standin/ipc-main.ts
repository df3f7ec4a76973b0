import { EventEmitter } from "node:events";

type Handler = (event: never, ...values: unknown[]) => unknown;

class IpcMainStandIn
  extends EventEmitter
  implements Pick<Electron.IpcMain, "handle" | "removeHandler">
{
  readonly #handlers = new Map<string, Handler>();

  handle(channel: string, handler: Handler): void {
    if (this.#handlers.has(channel)) {
      throw new Error(`Attempted to register a second handler for '${channel}'`);
    }
    this.#handlers.set(channel, handler);
  }

  removeHandler(channel: string): void {
    this.#handlers.delete(channel);
  }

  /** For a page: runs the handler of a channel. */
  async answer(channel: string, event: object, values: readonly unknown[]): Promise<unknown> {
    const handler = this.#handlers.get(channel);
    if (handler === undefined) throw new Error(`No handler registered for '${channel}'`);
    return handler(event as never, ...values);
  }
}

export const ipcMain = new IpcMainStandIn();
