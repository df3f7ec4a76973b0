import type { MessageChannelMain, MessagePortMain, WebFrameMain } from "electron";
import { channels } from "./channels.ts";

/** What serving a port gives back; closing it also ends the calls and streams that ran over it. */
export interface Served {
  close(): void;
}

/**
 * Hands each frame one live API port. A frame that asks again, or whose page has gone, loses its old one.
 * The map is also what keeps the ports alive: a port that nobody refers to is collected and so closed.
 */
export class Ports {
  readonly #live = new Map<number, { readonly port: MessagePortMain; readonly served: Served }>();
  readonly #newChannel: () => MessageChannelMain;
  readonly #serve: (port: MessagePortMain, frameTreeNodeId: number) => Served;

  /**
   * @param newChannel makes a pair of connected ports
   * @param serve answers API calls that come in through a port of the frame
   */
  constructor(
    newChannel: () => MessageChannelMain,
    serve: (port: MessagePortMain, frameTreeNodeId: number) => Served,
  ) {
    this.#newChannel = newChannel;
    this.#serve = serve;
  }

  /** How many frames have a live port. */
  get count(): number {
    return this.#live.size;
  }

  open(frame: Pick<WebFrameMain, "frameTreeNodeId" | "postMessage">): void {
    const key = frame.frameTreeNodeId;
    this.close(key);
    const { port1, port2 } = this.#newChannel();
    const served = this.#serve(port1, key);
    this.#live.set(key, { port: port1, served });
    port1.on("close", () => {
      if (this.#live.get(key)?.port === port1) this.close(key);
    });
    frame.postMessage(channels.port, null, [port2]);
  }

  /** Closes a frame's port, if it has one. */
  close(frameTreeNodeId: number): void {
    const live = this.#live.get(frameTreeNodeId);
    if (live === undefined) return;
    this.#live.delete(frameTreeNodeId);
    live.served.close();
    live.port.close();
  }

  closeAll(): void {
    for (const key of [...this.#live.keys()]) this.close(key);
  }
}
