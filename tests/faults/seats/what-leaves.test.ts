import { type AddressInfo, connect, createServer } from "node:net";
import { afterEach, expect, it } from "vitest";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { noRules } from "../../../shared/plan/earning.ts";
import { knock, openRoom, type Room, showNext } from "./room.ts";

const names = ["Quillon Invented", "Marisela Invented", "Thaddea Invented", "Zoë Ñandú"];
let room: Room | null = null;
const closing: (() => void)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) close();
  await room?.close();
  room = null;
});

/** A wire in between that keeps every byte which the computer sends. */
async function wiretap(port: number): Promise<{ port: number; bytes(): Buffer }> {
  const chunks: Buffer[] = [];
  const wire = createServer((device) => {
    const there = connect({ host: "127.0.0.1", port });
    there.on("data", (data) => chunks.push(data));
    there.pipe(device);
    device.pipe(there);
    const over = () => {
      there.destroy();
      device.destroy();
    };
    for (const end of [device, there]) end.on("error", over).on("close", over);
  });
  await new Promise<void>((resolve) => wire.listen(0, "127.0.0.1", resolve));
  closing.push(() => wire.close());
  return {
    port: (wire.address() as AddressInfo).port,
    bytes: () => Buffer.concat(chunks),
  };
}

/** A text in each way in which it could be written on a line: as UTF-8, Latin-1, UTF-16, or escaped. */
function writings(text: string): Buffer[] {
  const numbered = (letter: string) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, "0")}`;
  const escaped = text.replace(/[^\x20-\x7e]/g, numbered);
  return [
    Buffer.from(text, "utf8"),
    Buffer.from(text, "latin1"),
    Buffer.from(text, "utf16le"),
    Buffer.from(escaped, "latin1"),
    Buffer.from(encodeURIComponent(text), "latin1"),
  ];
}

const holds = (bytes: Buffer, text: string): boolean =>
  writings(text).some((each) => bytes.includes(each));

it("a name with letters beyond ASCII is found in bytes however it is written", () => {
  for (const bytes of writings("Zoë")) expect(holds(bytes, "Zoë")).toBe(true);
  expect(holds(Buffer.from(JSON.stringify({ name: "Zoë Ñandú" })), "Zoë")).toBe(true);
  expect(holds(Buffer.from("Zoe, Zo\u00e9"), "Zoë")).toBe(false);
});

/** A cue each minute for the class, or each student at their own moments. */
const cueings = {
  class: {},
  own: { cueing: "own", law: "exponential", shortestGapSeconds: 50, lengthSeconds: 900 },
} as const;

it.each(["class", "own"] as const)(
  "no byte that leaves holds a name, an id, a target or a plan's word, on any page or line, with cues for: %s",
  async (cueing) => {
    const rules = { ...noRules, mark: 1, on: 1 };
    room = await openRoom({
      clock: systemClock(20),
      students: names,
      plan: { ...cueings[cueing], earning: { kind: "own", rules, takes: true } },
    });
    // Names that the teacher turned on wait for an encrypted line.
    await room.handlers.app.saveSettings({ pocketNames: true }, room.context);
    const tap = await wiretap(room.port);
    const how = { host: `127.0.0.1:${room.port}`, origin: `http://127.0.0.1:${room.port}` };
    for (const path of ["/", "/seat.js", "/seat.css", "/nothing"]) {
      const socket = connect({ host: "127.0.0.1", port: tap.port });
      socket.resume();
      socket.write(`GET ${path} HTTP/1.1\r\nHost: ${how.host}\r\nConnection: close\r\n\r\n`);
      await new Promise((resolve) => socket.on("close", resolve));
    }
    const one = await knock(tap.port, how);
    closing.push(() => one.socket.terminate());
    one.send({ kind: "hello", code: room.codeOf(1) });
    await one.hears("seat");
    const phone = await knock(tap.port, how);
    closing.push(() => phone.socket.terminate());
    phone.send({ kind: "hello", code: (await room.state()).pocketCode ?? "" });
    await phone.hears("places");
    const started = await room.start();
    const { session, cue } = await showNext(one);
    one.send({ kind: "mark", session, cue, value: "on" });
    await one.hears("kept", ({ marks }) => marks.length > 0);
    await phone.hears("places", ({ places }) => places.length === names.length);
    phone.send({ kind: "give", press: crypto.randomUUID(), place: 1, amount: 1 });
    await phone.hears("done");
    // The counter of the seat shows what was given and what the mark earned.
    await one.hears("state", ({ points }) => points === 1 || points === 3);
    phone.send({ kind: "take", press: crypto.randomUUID(), place: 2 });
    await phone.hears("refused");

    const left = tap.bytes();
    expect(holds(left, '"kind":"places"')).toBe(true);
    expect(left.length).toBeGreaterThan(20_000);
    const secrets = [
      ...names.flatMap((name) => [name, ...name.split(" ")]),
      ...room.students.map(({ id }) => id),
      room.groupId,
      started.id,
      started.seed === "room" ? '"room"' : started.seed,
      "Invented class",
      "Each minute",
      room.codeOf(2),
    ];
    for (const secret of secrets) expect(holds(left, secret), secret).toBe(false);
  },
);
