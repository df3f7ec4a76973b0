import { type AddressInfo, connect, createServer } from "node:net";
import { afterEach, expect, it } from "vitest";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { noRules } from "../../../shared/plan/earning.ts";
import { knock, openRoom, type Room, showNext } from "./room.ts";

const names = ["Quillon Invented", "Marisela Invented", "Thaddea Invented"];
let room: Room | null = null;
const closing: (() => void)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) close();
  await room?.close();
  room = null;
});

/** A wire in between that keeps every byte which the computer sends. */
async function wiretap(port: number): Promise<{ port: number; text(): string }> {
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
    text: () => Buffer.concat(chunks).toString("latin1"),
  };
}

it("no byte that leaves holds a name, an id, a target or a plan's word, on any page or line", async () => {
  const rules = { ...noRules, mark: 1, on: 1 };
  room = await openRoom({
    clock: systemClock(20),
    students: names,
    plan: { earning: { kind: "own", rules, takes: true } },
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
  await phone.hears("places", ({ places }) => places.length === 3);
  phone.send({ kind: "give", press: crypto.randomUUID(), place: 1, amount: 1 });
  await phone.hears("done");
  // The counter of the seat shows what was given and what the mark earned.
  await one.hears("state", ({ points }) => points === 1 || points === 3);
  phone.send({ kind: "take", press: crypto.randomUUID(), place: 2 });
  await phone.hears("refused");

  const left = tap.text();
  expect(left).toContain('"kind":"places"');
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
  for (const secret of secrets) expect(left.includes(secret), secret).toBe(false);
});
