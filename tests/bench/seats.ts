// Prints the figures of seats: answers of a whole room at once, from the press to the disk and back.
//   npm run bench:seats
// One process of N sockets, over addresses of 127.0.0.0/8; the real server, conductor and store, on a
// folder of this machine's disk, every answer on the disk before its device hears so.
import { rmSync } from "node:fs";
import { systemClock } from "../../electron/services/base/clock.ts";
import { openStore } from "../../electron/store/store.ts";
import { type Device, openRoom, showNext } from "../faults/seats/room.ts";

/** Answers come within this time after a cue, in ms. */
const withinMs = 2_000;
/** Devices of one address. */
const anAddress = 50;

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, Math.max(0, ms)));

function quantile(values: readonly number[], share: number): number {
  const inOrder = values.toSorted((one, other) => one - other);
  return inOrder[Math.min(inOrder.length - 1, Math.floor(share * inOrder.length))] ?? Number.NaN;
}

/** Names that are nobody's. */
const invented = (count: number) => Array.from({ length: count }, (_, at) => `Leaf ${at + 1}`);

interface Round {
  readonly seats: number;
  readonly cues: number;
}

async function answers({ seats, cues }: Round): Promise<string> {
  const room = await openRoom({
    clock: systemClock(10),
    students: invented(seats),
    socketsAnAddress: anAddress,
  });
  const devices: Device[] = [];
  for (let at = 0; at < seats; at += 1) {
    devices.push(await room.join(at + 1, { from: `127.0.7.${1 + Math.floor(at / anAddress)}` }));
  }
  const session = await room.start();
  const tripMs: number[] = [];
  const beganMs: number[] = [];
  let last = 0;
  for (let round = 0; round < cues; round += 1) {
    const before = last;
    const shown = await Promise.all(
      devices.map(async (device) => {
        const { atServer } = await device.hears("due", (due) => due.cue > before);
        const next = await showNext(device, before);
        const t = performance.now();
        device.send({ kind: "clock", t });
        const { at } = await device.hears("clock", (told) => told.t === t);
        beganMs.push(at - atServer);
        return next;
      }),
    );
    last = shown[0]?.cue ?? last;
    await Promise.all(
      devices.map(async (device, at) => {
        await pause(((at + 0.5) / seats) * withinMs);
        const { session: on = "", cue = 0 } = shown[at] ?? {};
        const sent = performance.now();
        const kept = device.hears("kept", ({ marks }) => marks.some((mark) => mark.cue === cue));
        device.send({ kind: "mark", session: on, cue, value: at % 3 === 0 ? "off" : "on" });
        await kept;
        tripMs.push(performance.now() - sent);
      }),
    );
  }
  await room.close(false);
  const store = openStore({ folder: room.folder, now: Date.now });
  const marks = store.log.read(session.id, 0).filter(({ body }) => body.kind === "mark");
  const told = new Set(
    marks.map(({ body }) => (body.kind === "mark" ? `${body.studentId} ${body.cue}` : "")),
  );
  store.close();
  rmSync(room.folder, { recursive: true, force: true });
  const lost = seats * cues - told.size;
  const doubled = marks.length - told.size;
  const ms = (value: number) => `${value.toFixed(1)} ms`;
  return [
    `${seats} seats, ${cues} cues: lost ${lost}, doubled ${doubled}`,
    `press to disk and back: median ${ms(quantile(tripMs, 0.5))}, p99 ${ms(quantile(tripMs, 0.99))}`,
    `shown after due: p99 ${ms(quantile(beganMs, 0.99))}`,
  ].join("; ");
}

const asked = process.argv.slice(2).map(Number);
const rounds = asked.length > 0 ? asked : [36, 200, 500];
for (const seats of rounds) console.log(await answers({ seats, cues: 5 }));
process.exit(0);
