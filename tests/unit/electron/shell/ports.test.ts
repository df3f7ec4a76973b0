import { EventEmitter } from "node:events";
import type { MessageChannelMain, MessagePortMain } from "electron";
import { describe, expect, it } from "vitest";
import { Ports } from "../../../../electron/shell/ports.ts";

/** A port that closes like Electron's: the one that closes stays silent, the other end is told. */
class FakePort extends EventEmitter {
  closed = false;
  close(): void {
    this.closed = true;
  }
}

function setUp() {
  const made: FakePort[] = [];
  const ended: FakePort[] = [];
  const handedOver: unknown[] = [];
  const ports = new Ports(
    () => {
      const port1 = new FakePort();
      made.push(port1);
      // A channel of Electron's, as far as it is used.
      return { port1, port2: new FakePort() } as unknown as MessageChannelMain;
    },
    (port: unknown) => ({ close: () => ended.push(port as FakePort) }),
  );
  const frame = (frameTreeNodeId: number) => ({
    frameTreeNodeId,
    postMessage: (_channel: string, _message: unknown, transfer: MessagePortMain[] = []) =>
      handedOver.push(...transfer),
  });
  return { ports, made, ended, handedOver, frame };
}

describe("Ports", () => {
  it("hands a frame the other end of a served port", () => {
    const { ports, handedOver, frame } = setUp();
    ports.open(frame(1));
    expect(ports.count).toBe(1);
    expect(handedOver).toHaveLength(1);
  });

  it("keeps one a frame: the one before is ended and closed", () => {
    const { ports, made, ended, frame } = setUp();
    ports.open(frame(1));
    ports.open(frame(2));
    ports.open(frame(1));
    expect(ports.count).toBe(2);
    expect(made.map(({ closed }) => closed)).toEqual([true, false, false]);
    expect(ended).toEqual([made[0]]);
  });

  it("lets a port go when its page has gone, but not for an old port's late word", () => {
    const { ports, made, frame } = setUp();
    ports.open(frame(1));
    ports.open(frame(1));
    made[0]?.emit("close");
    expect(ports.count).toBe(1);
    made[1]?.emit("close");
    expect(ports.count).toBe(0);
  });

  it("closes all on the way out", () => {
    const { ports, made, frame } = setUp();
    for (const id of [1, 2, 3]) ports.open(frame(id));
    ports.closeAll();
    ports.close(7);
    expect(ports.count).toBe(0);
    expect(made.every(({ closed }) => closed)).toBe(true);
  });
});
