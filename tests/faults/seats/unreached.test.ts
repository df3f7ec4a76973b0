import { afterEach, describe, expect, it } from "vitest";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { openRoom, type Room, showNext } from "./room.ts";

let room: Room | null = null;
afterEach(async () => {
  await room?.close();
  room = null;
});

describe("a cue that reached the class and not one student's device", () => {
  it("is no missing mark of that student: the log says so, and the counts leave it out", async () => {
    const names = ["Fern", "Robin", "Ash"];
    const open = await openRoom({ clock: systemClock(20), students: names });
    room = open;
    const [one] = [await open.join(1), await open.join(2)];
    const { id: sessionId } = await open.start();
    const [fern, robin] = open.students.map(({ id }) => id);
    const first = await showNext(one);
    // Nobody says that Robin's device showed it; three seconds later that is a verdict.
    await one.hears("due", ({ cue }) => cue > first.cue + 1);
    await open.handlers.sessions.end({ sessionId }, open.context);
    const { counts } = await open.handlers.analysis.counts({ groupId: open.groupId }, open.context);
    const log = await open.logOf(sessionId);
    room = null;
    const told = log.flatMap((body) =>
      body.kind === "undelivered" && body.cue === first.cue ? [body] : [],
    );
    // Ash has no device here, and hears what the class hears.
    expect(told).toMatchObject([{ studentId: robin, cue: first.cue }]);
    expect(["seat-asleep", "no-report"]).toContain(told[0]?.reason);
    const missing = (at: number) => counts[at]?.self.missing[0];
    const delivered = log.filter(({ kind }) => kind === "delivered").length;
    expect(counts[0]?.studentId).toBe(fern);
    expect(missing(2)).toBe(delivered);
    expect(missing(1) ?? 0).toBeLessThan(delivered);
    expect(missing(0)).toBeGreaterThan(missing(1) ?? 0);
  });
});
