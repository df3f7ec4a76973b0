// Prints the figures of seats: answers of a whole room at once, from the press to the disk and back.
//   npm run bench:seats
// One process of N sockets, over addresses of 127.0.0.0/8; the real server, conductor and store in another, on
// a folder of this machine's disk, every answer on the disk before its device hears so.
import { fork } from "node:child_process";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { openStore } from "../../../electron/store/store.ts";
import { openRoom } from "../../faults/seats/room.ts";
import type { Asked, Told } from "./devices.ts";

function quantile(values: readonly number[], share: number): number {
  const inOrder = values.toSorted((one, other) => one - other);
  return inOrder[Math.min(inOrder.length - 1, Math.floor(share * inOrder.length))] ?? Number.NaN;
}

/** Names that are nobody's. */
const invented = (count: number) => Array.from({ length: count }, (_, at) => `Leaf ${at + 1}`);

async function answers(seats: number, cues: number): Promise<string> {
  const anAddress = 50;
  const room = await openRoom({
    // Cues come every six seconds.
    clock: systemClock(10),
    students: invented(seats),
    socketsAnAddress: anAddress,
  });
  const devices = fork(join(import.meta.dirname, "devices.ts"));
  const hears = <Kind extends Told["kind"]>(kind: Kind) =>
    new Promise<Extract<Told, { kind: Kind }>>((resolve, reject) => {
      devices.on("message", (told: Told) => {
        if (told.kind === kind) resolve(told as Extract<Told, { kind: Kind }>);
      });
      devices.once("exit", () => reject(new Error("The devices' process ended.")));
    });
  const codes = room.slips.map(({ code }) => code);
  const [joined, done] = [hears("joined"), hears("done")];
  devices.send({ port: room.port, codes, cues, anAddress, withinMs: 2_000 } satisfies Asked);
  const { ms: joinMs } = await joined;
  const before = performance.now();
  const session = await room.start();
  const startMs = performance.now() - before;
  devices.send("begun");
  const { tripMs, beganMs } = await done;
  devices.kill();
  await room.close(false);
  const store = openStore({ folder: room.folder, now: Date.now });
  const marks = store.log.read(session.id, 0).flatMap(({ body }) => {
    return body.kind === "mark" ? [`${body.studentId} ${body.cue}`] : [];
  });
  store.close();
  rmSync(room.folder, { recursive: true, force: true });
  const told = new Set(marks).size;
  const ms = (value: number) => `${value.toFixed(1)} ms`;
  return [
    `${seats} seats, ${cues} cues: lost ${seats * cues - told}, doubled ${marks.length - told}`,
    `press to disk and back: median ${ms(quantile(tripMs, 0.5))}, p99 ${ms(quantile(tripMs, 0.99))}`,
    `shown after due: p99 ${ms(quantile(beganMs, 0.99))}`,
    `all joined after ${(joinMs / 1_000).toFixed(1)} s, started in ${ms(startMs)}`,
  ].join("; ");
}

const asked = process.argv.slice(2).map(Number);
const rounds = asked.length > 0 ? asked : [36, 200, 500];
for (const seats of rounds) console.log(await answers(seats, 5));
process.exit(0);
