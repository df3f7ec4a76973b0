import { connect } from "node:net";
import { afterEach, describe, expect, it } from "vitest";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { noRules } from "../../../shared/plan/earning.ts";
import { helloWithinMs, longestSeatMessageBytes } from "../../../shared/seats/limits.ts";
import { manualClock } from "../../support/manual-clock.ts";
import { type Device, knock, openRoom, type Room, type RoomOptions, showNext } from "./room.ts";

const names = ["Fern Invented", "Robin Invented", "Ash Invented"];
let room: Room | null = null;

async function openFor(options: Partial<RoomOptions> = {}): Promise<Room> {
  room = await openRoom({ clock: systemClock(20), students: names, ...options });
  return room;
}

afterEach(async () => {
  await room?.close();
  room = null;
});

const refusedWith = (line: Promise<unknown>): Promise<string> =>
  line.then(
    () => "let in",
    (error: unknown) => (error instanceof Error ? error.message : String(error)),
  );

describe("the seats' server", () => {
  it("turns away a page of another origin, a page of no origin, and a name pointed here", async () => {
    const { port } = await openFor();
    expect(await refusedWith(knock(port, { origin: "http://elsewhere.example" }))).toContain("403");
    expect(await refusedWith(knock(port, { origin: null }))).toContain("403");
    const rebound = {
      host: `elsewhere.example:${port}`,
      origin: `http://elsewhere.example:${port}`,
    };
    expect(await refusedWith(knock(port, rebound))).toContain("403");
    const page = await raw(port, `GET / HTTP/1.1\r\nHost: elsewhere.example:${port}\r\n\r\n`);
    expect(page).toMatch(/^HTTP\/1.1 403/);
    const own = await raw(port, `GET / HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n\r\n`);
    expect(own).toMatch(/^HTTP\/1.1 200/);
  });

  it("lets an address try five wrong codes a minute; others go on joining", async () => {
    const open = await openFor();
    for (let tries = 0; tries < 5; tries += 1) {
      const device = await open.knock();
      device.send({ kind: "hello", code: "BBBBBBBB" });
      expect(await device.hears("closed")).toMatchObject({ why: "code" });
    }
    const sixth = await open.knock();
    sixth.send({ kind: "hello", code: open.codeOf(1) });
    expect(await sixth.hears("closed")).toMatchObject({ why: "wait" });
    await open.join(1, { from: "127.0.0.2" });
  });

  it("lets an address try no more of them when sixty come at once, and a class behind one router in at once", async () => {
    const open = await openFor({
      students: Array.from({ length: 36 }, (_, at) => `Leaf ${at + 1}`),
    });
    const guess = async (from: string) => {
      const device = await open.knock({ from });
      device.send({ kind: "hello", code: "BBBBBBBB" });
      return (await device.hears("closed")).why;
    };
    const said = await Promise.all(Array.from({ length: 60 }, () => guess("127.0.8.1")));
    expect(said.filter((why) => why === "code")).toHaveLength(5);
    expect(said.filter((why) => why === "wait")).toHaveLength(55);
    const router = { from: "127.0.8.2" };
    await Promise.all(open.slips.map(({ number }) => open.join(number, router)));
    // None of the right ones counted: this address still has all five.
    for (let tries = 0; tries < 5; tries += 1) expect(await guess(router.from)).toBe("code");
    expect(await guess(router.from)).toBe("wait");
  });

  it("pauses joining at the fiftieth wrong code also when more come at once, from as many addresses", async () => {
    const open = await openFor();
    const tries = Array.from({ length: 60 }, async (_, at) => {
      const device = await open.knock({ from: `127.0.9.${1 + at}` });
      device.send({ kind: "hello", code: "BBBBBBBB" });
      return (await device.hears("closed")).why;
    });
    const said = await Promise.all(tries);
    expect(said.filter((why) => why === "code")).toHaveLength(50);
    expect(said.filter((why) => why === "paused")).toHaveLength(10);
  });

  it("pauses joining after fifty wrong codes in an hour, says so, and keeps slips and lines", async () => {
    const open = await openFor();
    const there = await open.join(1, { from: "127.0.1.1" });
    const tries = Array.from({ length: 50 }, async (_, index) => {
      const device = await open.knock({ from: `127.0.2.${1 + Math.floor(index / 5)}` });
      device.send({ kind: "hello", code: "BBBBBBBB" });
      await device.hears("closed");
    });
    await Promise.all(tries);
    const late = await open.knock({ from: "127.0.3.1" });
    late.send({ kind: "hello", code: open.codeOf(2) });
    expect(await late.hears("closed")).toMatchObject({ why: "paused" });
    const state = await open.state();
    expect(state.joiningPaused).toBe(true);
    expect(state.seats.map(({ hasSlip }) => hasSlip)).toEqual([true, true, true]);
    there.send({ kind: "clock", t: 7 });
    await there.hears("clock", ({ t }) => t === 7);
  });

  it("lets nobody in by a slip that was made void, and lets go who had joined by it", async () => {
    const open = await openFor();
    const device = await open.join(1);
    const [seat] = (await open.state()).seats;
    await open.handlers.seats.voidSlip({ seatId: seat?.id ?? "" }, open.context);
    await device.hears("freed");
    await device.closed;
    const again = await open.knock();
    again.send({ kind: "hello", code: open.codeOf(1) });
    expect(await again.hears("closed")).toMatchObject({ why: "code" });
  });

  it("keeps one answer a cue that was given to the seat, however often it is said, and no other", async () => {
    const open = await openFor();
    const [one, two] = [await open.join(1), await open.join(2)];
    const { id } = await open.start();
    const [{ session, cue }] = await Promise.all([showNext(one), showNext(two)]);
    one.send({ kind: "mark", session, cue, value: "on" });
    one.send({ kind: "mark", session, cue, value: "on" });
    await one.hears("kept", ({ marks }) => marks.some((mark) => mark.cue === cue));
    // A cue that is far ahead, one of another session, and one that the seat was never told of.
    one.send({ kind: "mark", session, cue: cue + 5, value: "on" });
    expect(await one.hears("unkept")).toMatchObject({ cue: cue + 5, why: "no-cue" });
    one.send({ kind: "mark", session: "another", cue, value: "off" });
    await one.hears("unkept", (said) => said.session === "another");
    const late = await open.join(3);
    late.send({ kind: "mark", session, cue, value: "on" });
    expect(await late.hears("unkept")).toMatchObject({ cue, why: "no-cue" });
    // 200 at once: the line is closed, and no more than one answer stands.
    for (let times = 0; times < 200; times += 1)
      two.send({ kind: "mark", session, cue, value: "on" });
    expect(await two.closed).toBe(1008);
    const marks = (await open.logOf(id)).filter(({ kind }) => kind === "mark");
    room = null;
    expect(marks.length).toBeLessThanOrEqual(2);
    expect(
      marks.filter((mark) => "studentId" in mark && mark.studentId === open.students[0]?.id),
    ).toEqual([
      { kind: "mark", studentId: open.students[0]?.id, cue, value: "on", way: "seat", late: false },
    ]);
  });

  it("tells a seat its own answers and its own next cue alone, no more than a moment ahead", async () => {
    const open = await openFor();
    const [one, two] = [await open.join(1), await open.join(2)];
    await open.start();
    const { session, cue } = await showNext(one);
    one.send({ kind: "mark", session, cue, value: "off" });
    await one.hears("kept", ({ marks }) => marks.length > 0);
    await showNext(one, cue);
    expect(
      two.heard
        .filter(({ kind }) => kind === "kept")
        .every((kept) => kept.kind === "kept" && kept.marks.length === 0),
    ).toBe(true);
    const dues = two.heard.flatMap((message) => (message.kind === "due" ? [message] : []));
    two.send({ kind: "clock", t: 1 });
    const { at } = await two.hears("clock", ({ t }) => t === 1);
    // Told once each, in order, and never one that is more than 2.5 s away.
    expect(dues.map((due) => due.cue)).toEqual([...new Set(dues.map((due) => due.cue))]);
    expect(Math.max(...dues.map(({ atServer }) => atServer)) - at).toBeLessThanOrEqual(2_500);
  });

  it("tells a seat its own points and nobody else's", async () => {
    const rules = { ...noRules, mark: 1 };
    const open = await openFor({ plan: { earning: { kind: "own", rules } } });
    const [one, two] = [await open.join(1), await open.join(2)];
    const phone = await open.knock();
    phone.send({ kind: "hello", code: (await open.state()).pocketCode ?? "" });
    await open.start();
    await phone.hears("places", ({ places }) => places.length === names.length);
    phone.send({ kind: "give", press: crypto.randomUUID(), place: 1, amount: 3 });
    await one.hears("state", ({ points }) => points === 3);
    // Whatever the second seat is told of points by then, and after points of its own, is its own count.
    phone.send({ kind: "give", press: crypto.randomUUID(), place: 2, amount: 2 });
    await two.hears("state", ({ points }) => points === 2);
    const toldOf = (device: Device) =>
      device.heard.flatMap((said) =>
        said.kind === "state" && said.points !== undefined ? [said.points] : [],
      );
    expect(new Set(toldOf(two))).toEqual(new Set([0, 2]));
    expect(new Set(toldOf(one))).toEqual(new Set([0, 3]));
    const others = two.heard.filter(({ kind }) => kind !== "state");
    expect(JSON.stringify(others)).not.toContain("points");
  });

  it("serves three files, and none of the app's procedures by any path or word", async () => {
    const { port } = await openFor();
    for (const path of [
      "/api",
      "/rpc",
      "/join",
      "/joined",
      "/../seats/seat.js",
      "/index.html",
      "/assets/x.js",
    ]) {
      expect(
        await raw(port, `GET ${path} HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n\r\n`),
        path,
      ).toMatch(/^HTTP\/1.1 (404|400)/);
    }
    expect(
      await raw(
        port,
        `POST /join HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\ncontent-length: 0\r\n\r\n`,
      ),
    ).toMatch(/^HTTP\/1.1 405/);
    expect(await refusedWith(knock(port, { path: "/api" }))).toContain("404");
    const device = await room?.join(1);
    device?.sendRaw(JSON.stringify({ id: "1", p: { u: "/sessions/open", b: {} } }));
    expect(await device?.closed).toBe(1008);
  });

  it("hangs up on what is too long, binary, cut in pieces that are too long, or said before the code", async () => {
    const open = await openFor();
    const tooLong = await open.join(1);
    tooLong.sendRaw(JSON.stringify({ kind: "alive", x: "x".repeat(longestSeatMessageBytes) }));
    expect(await tooLong.closed).toBe(1009);
    const binary = await open.join(1);
    binary.sendRaw(Buffer.from('{"kind":"alive"}'));
    expect(await binary.closed).toBe(1008);
    const inPieces = await open.join(1);
    for (let piece = 0; piece < 40; piece += 1)
      inPieces.socket.send("x".repeat(20), { fin: false });
    expect(await inPieces.closed).toBe(1009);
    const early = await open.knock();
    early.send({ kind: "alive" });
    expect(await early.closed).toBe(1008);
    const unknown = await open.join(1);
    unknown.sendRaw('{"kind":"names"}');
    expect(await unknown.closed).toBe(1008);
  });

  it("lets go of callers that say nothing, and keeps a thousand sockets of one address from the others", async () => {
    const open = await openFor();
    const silent = connect({ host: "127.0.0.1", port: open.port, localAddress: "127.0.4.1" });
    const gone = new Promise((resolve) => silent.once("close", resolve));
    silent.resume();
    silent.write("GET / HTTP/1.1\r\nHost: ");
    const begunMs = Date.now();
    const many = Array.from({ length: 1_000 }, () =>
      open.knock({ from: "127.0.5.1" }).then(
        () => 1,
        () => 0,
      ),
    );
    const letIn: number = (await Promise.all(many)).reduce<number>((sum, each) => sum + each, 0);
    expect(letIn).toBeGreaterThan(0);
    // Those that say no hello are let go, and on a busy machine others come in their place.
    const rounds = 1 + Math.floor((Date.now() - begunMs) / helloWithinMs);
    expect(letIn).toBeLessThanOrEqual(60 * rounds);
    await open.join(1, { from: "127.0.6.1" });
    await gone;
  }, 40_000);

  it("neither takes nor gives a cookie: the teacher's own tickets open nothing here", async () => {
    const open = await openFor();
    const headers = { cookie: "ticket=anything", authorization: "Bearer anything" };
    const device = await open.knock({ headers });
    device.send({ kind: "clock", t: 1 });
    expect(await device.closed).toBe(1008);
    const page = await raw(
      open.port,
      `GET / HTTP/1.1\r\nHost: 127.0.0.1:${open.port}\r\nCookie: ticket=anything\r\n\r\n`,
    );
    expect(page.toLowerCase()).not.toContain("set-cookie");
  });

  it("gives the adult's page to no seat, and a seat to no pocket page", async () => {
    const open = await openFor();
    const child = await open.join(1);
    child.send({ kind: "give", press: crypto.randomUUID(), place: 1, amount: 5 });
    expect(await child.closed).toBe(1008);
    const { pocketCode } = await open.state();
    const phone = await open.knock();
    phone.send({ kind: "hello", code: pocketCode ?? "" });
    await phone.hears("places");
    expect(phone.heard.some(({ kind }) => kind === "seat")).toBe(false);
    phone.send({ kind: "mark", session: "any", cue: 1, value: "on" });
    expect(await phone.closed).toBe(1008);
  });
});

describe("no listener is left", () => {
  const isListening = (port: number) =>
    new Promise<boolean>((resolve) => {
      const socket = connect({ host: "127.0.0.1", port });
      socket.once("connect", () => {
        socket.destroy();
        resolve(true);
      });
      socket.once("error", () => resolve(false));
    });
  const closes = async (port: number) => {
    const last = performance.now() + 10_000;
    while (await isListening(port)) {
      if (performance.now() > last) throw new Error("Still listening.");
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  };

  it("after the teacher closed seats, switched them off, locked the computer, or let it sleep", async () => {
    const clock = manualClock();
    const open = await openFor({ clock });
    const again = async () => {
      await open.handlers.seats.open(undefined, open.context);
      const [address = ""] = (await open.state()).addresses;
      return Number(new URL(address).port);
    };
    await open.handlers.seats.close(undefined, open.context);
    await closes(open.port);
    let port = await again();
    open.desktop.locked();
    await closes(port);
    expect((await open.state()).closedBecause).toBe("locked");
    port = await again();
    open.desktop.suspend();
    await closes(port);
    expect((await open.state()).closedBecause).toBe("sleep");
    port = await again();
    await open.handlers.app.saveSettings({ seats: false }, open.context);
    await closes(port);
  });

  it.each([true, false])(
    "after the computer slept and said nothing of it, whether its clock counted on or not (%s)",
    async (counted) => {
      const clock = manualClock();
      const open = await openFor({ clock });
      clock.advance(5_000);
      // A busy computer is not one that slept.
      clock.sleep(10_000, counted);
      clock.advance(5_000);
      expect((await open.state()).isOpen).toBe(true);
      clock.sleep(20 * 60_000, counted);
      clock.advance(2_000);
      await closes(open.port);
      expect((await open.state()).closedBecause).toBe("sleep");
    },
  );

  it("after the end of a session that ran on behind the lock, unless the screen was opened before", async () => {
    const clock = manualClock();
    const open = await openFor({ clock });
    await open.join(1);
    const first = await open.start();
    open.desktop.locked();
    clock.advance(60_000);
    expect((await open.state()).isOpen).toBe(true);
    open.desktop.unlocked();
    await open.handlers.sessions.end({ sessionId: first.id }, open.context);
    clock.advance(5_000);
    expect((await open.state()).isOpen).toBe(true);
    const second = await open.start();
    open.desktop.locked();
    clock.advance(60_000);
    expect((await open.state()).isOpen).toBe(true);
    await open.handlers.sessions.end({ sessionId: second.id }, open.context);
    clock.advance(5_000);
    await closes(open.port);
    expect((await open.state()).closedBecause).toBe("locked");
    // Whoever opens them again sits at the screen, also where the system never says that it was opened.
    await open.handlers.seats.open(undefined, open.context);
    clock.advance(5_000);
    expect((await open.state()).isOpen).toBe(true);
  });

  it("after the last period of the groups that sit today; days off and other weekdays do not count", async () => {
    // 9:00 on Monday, 12 January 2026.
    const clock = manualClock();
    const open = await openFor({ clock });
    const { handlers, context, groupId } = open;
    const reopened = async () => {
      await handlers.seats.close(undefined, context);
      await handlers.seats.open(undefined, context);
      return (await open.state()).until;
    };
    const evening = await handlers.groups.create({ name: "Evening", target: "Work" }, context);
    const periods = (ends: string) => [{ name: "All day", starts: "08:00", ends, exchange: false }];
    await handlers.points.savePeriods({ groupId, periods: periods("13:15") }, context);
    await handlers.points.savePeriods({ groupId: evening.id, periods: periods("21:00") }, context);
    expect(await reopened()).toBe("21:00");
    await handlers.calendar.saveWeekdays({ groupId: evening.id, weekdays: [2, 4] }, context);
    expect(await reopened()).toBe("13:15");
    const off = { firstDay: "2026-01-12", lastDay: "2026-01-12", label: "Snow" };
    await handlers.calendar.add(off, context);
    // As on a day without periods.
    expect(await reopened()).toBe("16:00");
  });

  it("after the end of the school day, but not in the middle of a session; a lock does not cut one off", async () => {
    // 15:30 on a Monday; without periods seats close at 16:00.
    const clock = manualClock({ wallMs: Date.UTC(2026, 0, 12, 15, 30) });
    const open = await openFor({ clock });
    await open.join(1);
    const { id } = await open.start();
    open.desktop.locked();
    clock.advance(45 * 60_000);
    open.desktop.unlocked();
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(await isListening(open.port)).toBe(true);
    await open.handlers.sessions.end({ sessionId: id }, open.context);
    clock.advance(5_000);
    await closes(open.port);
    expect((await open.state()).closedBecause).toBe("day");
  });

  it("two hours after an opening in the evening, also when midnight lies between", async () => {
    const clock = manualClock({ wallMs: Date.UTC(2026, 0, 12, 23, 59, 30) });
    const open = await openFor({ clock });
    clock.advance(60 * 60_000);
    expect(await open.state()).toMatchObject({ isOpen: true, until: "01:59" });
    clock.advance(60 * 60_000);
    await closes(open.port);
    expect((await open.state()).closedBecause).toBe("day");
  });
});

/** What a caller gets who speaks HTTP by hand. */
function raw(port: number, request: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect({ host: "127.0.0.1", port });
    let text = "";
    socket.setEncoding("utf8");
    socket.on("data", (data) => {
      text += data;
      if (text.includes("\r\n\r\n")) socket.destroy();
    });
    socket.on("close", () => resolve(text));
    socket.on("error", reject);
    socket.write(request);
  });
}
