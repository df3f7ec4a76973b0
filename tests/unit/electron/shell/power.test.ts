import { describe, expect, it } from "vitest";
import { Wakefulness } from "../../../../electron/shell/power.ts";

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
