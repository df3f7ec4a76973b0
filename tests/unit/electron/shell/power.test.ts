import { EventEmitter } from "node:events";
import type { PowerMonitor } from "electron";
import { describe, expect, it } from "vitest";
import { hearSystem, Wakefulness } from "../../../../electron/shell/power.ts";

function setUp() {
  const held = new Map<number, string>();
  let last = 0;
  const wakefulness = new Wakefulness({
    start: (kind) => {
      held.set(++last, kind);
      return last;
    },
    stop: (id) => held.delete(id),
    isStarted: (id) => held.has(id),
  });
  return { wakefulness, held: () => [...held.values()] };
}

describe("Wakefulness", () => {
  it("holds one blocker while a session is live, however often it is told", () => {
    const { wakefulness, held } = setUp();
    wakefulness.setLive(false);
    expect(held()).toEqual([]);
    wakefulness.setLive(true);
    wakefulness.setLive(true);
    expect(held()).toEqual(["prevent-app-suspension"]);
    wakefulness.setLive(false);
    expect(held()).toEqual([]);
  });

  it("keeps the display on while the class board is shown in a live session", () => {
    const { wakefulness, held } = setUp();
    wakefulness.setBoardShown(true);
    expect(held()).toEqual([]);
    wakefulness.setLive(true);
    expect(held()).toEqual(["prevent-display-sleep"]);
    wakefulness.setBoardShown(false);
    expect(held()).toEqual(["prevent-app-suspension"]);
  });
});

it("each word of the system is passed on by its own name", () => {
  const system = new EventEmitter();
  const heard: string[] = [];
  hearSystem(system as unknown as PowerMonitor, {
    suspend: () => heard.push("suspend"),
    wake: () => heard.push("wake"),
    locked: () => heard.push("locked"),
    unlocked: () => heard.push("unlocked"),
  });
  // The names are those of Electron's documentation of powerMonitor.
  for (const word of ["suspend", "resume", "lock-screen", "unlock-screen"]) system.emit(word);
  expect(heard).toEqual(["suspend", "wake", "locked", "unlocked"]);
});
