import { EventEmitter } from "node:events";

/** Where one end of a channel delivers to: another port here, or a port in a page. */
export interface PortEnd {
  deliver(value: unknown): void;
  disconnect(): void;
}

type PortSurface = Pick<Electron.MessagePortMain, "postMessage" | "start" | "close">;

/** A MessagePortMain whose other end is another one here or, once handed over, a port in a page. */
export class MessagePortStandIn extends EventEmitter implements PortSurface, PortEnd {
  #peer: PortEnd | null = null;
  #waiting: unknown[] = [];
  #started = false;
  #closed = false;

  connect(peer: PortEnd): void {
    this.#peer = peer;
  }

  postMessage(message: unknown, transfer: readonly Electron.MessagePortMain[] = []): void {
    if (transfer.length > 0) throw new Error("The stand-in hands ports to pages only.");
    const sent = structuredClone(message);
    const peer = this.#peer;
    if (!this.#closed && peer !== null) setImmediate(() => peer.deliver(sent));
  }

  start(): void {
    this.#started = true;
    for (const data of this.#waiting.splice(0)) this.emit("message", { data, ports: [] });
  }

  close(): void {
    if (this.#closed) return;
    this.#closed = true;
    const peer = this.#peer;
    setImmediate(() => {
      peer?.disconnect();
      this.emit("close");
    });
  }

  deliver(data: unknown): void {
    if (this.#closed) return;
    if (this.#started) this.emit("message", { data, ports: [] });
    else this.#waiting.push(data);
  }

  disconnect(): void {
    if (this.#closed) return;
    this.#closed = true;
    this.emit("close");
  }

  /** Hands this end over: what was waiting here and all that comes goes to `end` instead. */
  handOver(end: PortEnd): MessagePortStandIn {
    if (!(this.#peer instanceof MessagePortStandIn)) throw new Error("This port was handed over.");
    for (const data of this.#waiting.splice(0)) end.deliver(data);
    this.#closed = true;
    this.#peer.connect(end);
    return this.#peer;
  }
}

export class MessageChannelStandIn {
  readonly port1 = new MessagePortStandIn();
  readonly port2 = new MessagePortStandIn();

  constructor() {
    this.port1.connect(this.port2);
    this.port2.connect(this.port1);
  }
}
