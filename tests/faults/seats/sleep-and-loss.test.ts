import { afterEach, describe, expect, it } from "vitest";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { noRules } from "../../../shared/plan/earning.ts";
import type { MarkValue } from "../../../shared/session/event.ts";
import { openRoom, type Room, type RoomOptions, showNext, until } from "./room.ts";

let room: Room | null = null;
async function openFor(options: Partial<RoomOptions> = {}): Promise<Room> {
  room = await openRoom({ clock: systemClock(20), students: ["Fern", "Robin", "Ash"], ...options });
  return room;
}
afterEach(async () => {
  await room?.close();
  room = null;
});

describe("a seat", () => {
  it("that was told of a cue and did not show it is named to the teacher, and has no mark", async () => {
    const open = await openFor();
    const [one, two] = [await open.join(1), await open.join(2)];
    await open.start();
    const { cue } = await showNext(one);
    // What is shown in time is told apart from what is not after three seconds.
    await two.hears("due", (due) => due.cue > cue);
    await one.hears("due", (due) => due.cue > cue + 1);
    const { seats } = await open.state();
    expect(seats[0]?.missed).not.toContain(cue);
    // The third never joined.
    expect(seats[2]).toMatchObject({ joined: false, missed: expect.arrayContaining([cue]) });
  });

  it("hands in an answer of the cue before late, and one whose line was lost finds what is kept", async () => {
    const open = await openFor();
    const one = await open.join(1);
    const { id } = await open.start();
    const first = await showNext(one);
    one.socket.terminate();
    const again = await open.join(1);
    const second = await showNext(again, first.cue);
    await again.hears("due", ({ cue }) => cue > second.cue);
    again.send({ kind: "mark", session: first.session, cue: first.cue, value: "off" });
    const kept = await again.hears("kept", ({ marks }) => marks.length > 0);
    expect(kept.marks).toEqual([{ cue: first.cue, value: "off", late: true }]);
    const third = await open.join(1);
    expect((await third.hears("kept")).marks).toEqual(kept.marks);
    await again.hears("closed", ({ why }) => why === "elsewhere");
    const log = await open.logOf(id);
    room = null;
    expect(log.filter(({ kind }) => kind === "mark")).toHaveLength(1);
  });

  it("of a student who is set aside is told nothing of the session, and is told again when they are back", async () => {
    const open = await openFor();
    const one = await open.join(1);
    const { id: sessionId } = await open.start();
    await one.hears("state", ({ is }) => is === "running");
    const studentId = open.students[0]?.id ?? "";
    await open.handlers.sessions.setAside({ sessionId, studentId, aside: true }, open.context);
    const heardBefore = one.heard.length;
    await until(
      () =>
        one.heard.slice(heardBefore).some((said) => said.kind === "state" && said.is === "idle"),
      "the quiet state",
    );
    await open.handlers.sessions.setAside({ sessionId, studentId, aside: false }, open.context);
    await until(() => {
      const last = one.heard.findLast(({ kind }) => kind === "state");
      return last?.kind === "state" && last.is === "running";
    }, "the running state");
  });

  it("that joins after a session had no part in it: it is ready, and the others are thanked", async () => {
    const open = await openFor();
    const one = await open.join(1);
    const { id: sessionId } = await open.start();
    await one.hears("state", ({ is }) => is === "running");
    await open.handlers.sessions.end({ sessionId }, open.context);
    await one.hears("state", ({ is }) => is === "ended");
    const two = await open.join(2);
    expect(await two.hears("state")).toEqual({ kind: "state", is: "idle", session: null });
    const again = await open.join(1);
    expect(await again.hears("state")).toMatchObject({ is: "ended" });
    const { id: next } = await open.start();
    await two.hears("state", ({ is }) => is === "running");
    await open.handlers.sessions.end({ sessionId: next }, open.context);
    await two.hears("state", ({ is }) => is === "ended");
  });

  it("says that it was away, and takes it back", async () => {
    const open = await openFor();
    const one = await open.join(1);
    const { id } = await open.start();
    const { session, cue } = await showNext(one);
    one.send({ kind: "away", session, cue, away: true });
    one.send({ kind: "away", session, cue, away: false });
    one.send({ kind: "mark", session, cue, value: "on" });
    await one.hears("kept", ({ marks }) => marks.length > 0);
    const log = await open.logOf(id);
    room = null;
    const said = log.flatMap((body) => (body.kind === "said-away" ? [body.away] : []));
    expect(said).toEqual([true, false]);
  });
});

describe("a session recorded on devices", () => {
  it("takes the card of a student whose device failed as one that was marked in time", async () => {
    const open = await openFor({ plan: { recording: "seat" } });
    const one = await open.join(1);
    const { id: sessionId } = await open.start();
    const { session, cue } = await showNext(one);
    one.send({ kind: "mark", session, cue, value: "on" });
    await one.hears("kept", ({ marks }) => marks.length > 0);
    await open.handlers.sessions.end({ sessionId }, open.context);
    const [fern = "", robin = ""] = open.students.map(({ id }) => id);
    const boxes: MarkValue[] = [...Array<MarkValue>(cue - 1).fill("none"), "off"];
    const cards = [{ studentId: robin, card: { kind: "boxes" as const, boxes } }];
    await open.handlers.records.saveCards({ sessionId, cards }, open.context);
    const log = await open.logOf(sessionId);
    room = null;
    expect(log.filter(({ kind }) => kind === "mark")).toEqual([
      { kind: "mark", studentId: fern, cue, value: "on", way: "seat", late: false },
      { kind: "mark", studentId: robin, cue, value: "off", way: "paper", late: false },
    ]);
  });
});

describe("the adult's pocket page", () => {
  const plan: RoomOptions["plan"] = {
    earning: { kind: "own", rules: { ...noRules, mark: 1 }, takes: true },
  };

  it("gives by place, and takes only within the guard; a press that is said twice is one", async () => {
    const open = await openFor({ plan });
    await open.start();
    const phone = await open.knock();
    phone.send({ kind: "hello", code: (await open.state()).pocketCode ?? "" });
    const { places } = await phone.hears("places", (told) => told.places.length === 3);
    expect(places).toEqual([1, 2, 3].map((place) => ({ place, row: 1, column: place })));
    const take = crypto.randomUUID();
    phone.send({ kind: "take", press: take, place: 2 });
    expect(await phone.hears("refused")).toMatchObject({ press: take, why: "none-left" });
    const press = crypto.randomUUID();
    phone.send({ kind: "give", press, place: 2, amount: 2 });
    phone.send({ kind: "give", press, place: 2, amount: 2 });
    await phone.hears("done", (done) => done.press === press);
    const again = crypto.randomUUID();
    phone.send({ kind: "take", press: again, place: 2 });
    await phone.hears("done", (done) => done.press === again);
    const state = await open.handlers.points.state({ groupId: open.groupId }, open.context);
    expect(state.purses.map(({ balance }) => balance)).toEqual([0, 1, 0]);
    phone.send({ kind: "give", press: crypto.randomUUID(), place: 9, amount: 1 });
    await phone.hears("refused", ({ why }) => why === "unknown-place");
  });
});
