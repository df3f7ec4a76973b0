import { copyFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { get } from "node:https";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import WebSocket from "ws";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { noRules } from "../../../shared/plan/earning.ts";
import { type Certificates, makeCertificates } from "./certificates.ts";
import { openRoom, type Room, type RoomOptions, until } from "./room.ts";

const folder = mkdtempSync(join(tmpdir(), "pebblechime-cert-"));
let made: Certificates;
let room: Room | null = null;
beforeAll(() => {
  made = makeCertificates(folder);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
afterEach(async () => {
  await room?.close();
  room = null;
});

const openWith = (certificateFile: string, plan: RoomOptions["plan"] = {}) =>
  openRoom({ clock: systemClock(20), students: ["Fern", "Robin"], certificateFile, plan });

it("with a certificate that devices trust, the page and its line are encrypted, and so say the slips", async () => {
  room = await openWith(made.good);
  const { port, context, groupId, handlers } = room;
  const state = await room.state();
  expect(state).toMatchObject({ isOpen: true, isSecure: true, certificateProblem: null });
  expect(state.addresses).toEqual(
    ["127.0.0.1", "localhost", "room.example"].map((name) => `https://${name}:${port}`),
  );
  const { address, slips } = await handlers.seats.makeSlips({ groupId, seatIds: null }, context);
  expect(address).toBe(`https://127.0.0.1:${port}`);
  const trusts = { ca: readFileSync(made.authority) };
  const page = (headers: Record<string, string>) =>
    new Promise<number | undefined>((resolve, reject) => {
      // What is asked here is what the server does with a name, whatever a client thinks of it.
      const how = { ...trusts, headers, agent: false, checkServerIdentity: () => undefined };
      get(`${address}/`, how, (answer) => {
        answer.resume();
        resolve(answer.statusCode);
      }).on("error", reject);
    });
  expect(await page({})).toBe(200);
  // A name of the certificate is this computer's; another one that was pointed here is not.
  expect(await page({ host: `room.example:${port}` })).toBe(200);
  expect(await page({ host: `elsewhere.example:${port}` })).toBe(403);
  const line = new WebSocket(`wss://127.0.0.1:${port}/seat`, { ...trusts, origin: address });
  const said = new Promise((resolve) => line.once("message", (data) => resolve(String(data))));
  await new Promise((resolve, reject) => line.on("open", resolve).on("error", reject));
  line.send(JSON.stringify({ kind: "hello", code: slips[0]?.code }));
  expect(await said).toContain('"kind":"seat"');
  line.terminate();
  // Nothing is said to whoever speaks without encryption.
  const plain = await new Promise<string>((resolve) => {
    let text = "";
    const socket = connect({ host: "127.0.0.1", port });
    socket.on("data", (data) => {
      text += data;
    });
    socket.on("error", () => resolve(text));
    socket.on("close", () => resolve(text));
    socket.write(`GET / HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n\r\n`);
  });
  expect(plain).not.toContain("200 OK");
});

it("the adult's phone hears names over it when the teacher turned them on, and seats never do", async () => {
  room = await openWith(made.good, {
    earning: { kind: "own", rules: { ...noRules, mark: 1 } },
  });
  const { port, context, handlers } = room;
  await room.start();
  const heard: string[] = [];
  const trusts = { ca: readFileSync(made.authority), origin: `https://127.0.0.1:${port}` };
  const says = async (code: string) => {
    const line = new WebSocket(`wss://127.0.0.1:${port}/seat`, trusts);
    line.on("message", (data) => heard.push(String(data)));
    await new Promise((resolve, reject) => line.on("open", resolve).on("error", reject));
    line.send(JSON.stringify({ kind: "hello", code }));
    return line;
  };
  const phone = await says((await room.state()).pocketCode ?? "");
  const places = () => heard.filter((text) => text.includes('"kind":"places"'));
  await until(() => places().length === 1, "the places");
  expect(JSON.parse(places()[0] ?? "")).toMatchObject({ points: true, takes: false });
  expect(heard.join()).not.toContain("Fern");
  await handlers.app.saveSettings({ pocketNames: true }, context);
  await until(() => places().length === 2, "the places with names");
  expect(places()[1]).toContain('"name":"Fern"');
  await handlers.app.saveSettings({ pocketNames: false }, context);
  await until(() => places().length === 3, "the places without names");
  expect(places()[2]).not.toContain("Fern");
  phone.terminate();
  heard.length = 0;
  await handlers.app.saveSettings({ pocketNames: true }, context);
  const seat = await says(room.codeOf(1));
  await until(() => heard.some((text) => text.includes('"is":"running"')), "the state");
  expect(heard.join()).not.toContain("Fern");
  seat.terminate();
});

it("with one that cannot be used, seats stay closed and say why; a renewed file opens them without a restart", async () => {
  const file = join(folder, "renewed.pem");
  copyFileSync(made.good, file);
  room = await openWith(file);
  const { handlers, context } = room;
  await handlers.seats.close(undefined, context);
  copyFileSync(made.expired, file);
  await expect(handlers.seats.open(undefined, context)).rejects.toMatchObject({
    code: "seats-certificate",
    values: { problem: "expired" },
    message: expect.stringMatching(/has expired\. Ask whoever looks after/),
  });
  expect(await room.state()).toMatchObject({
    isOpen: false,
    certificateProblem: "expired",
    addresses: [],
  });
  copyFileSync(made.good, file);
  await handlers.seats.open(undefined, context);
  expect(await room.state()).toMatchObject({ isOpen: true, certificateProblem: null });
});
