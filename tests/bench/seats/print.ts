// Prints the figures of seats: answers of a whole room at once, from the press to the disk and back.
//   npm run bench:seats [-- SEATS ...]
// Then own cues (own-cues.ts), and the counting of five years of them with 720 rows of cues a session
// (../counts.ts). Fails where a goal is missed (goals.ts).
// One process of N sockets, over addresses of 127.0.0.0/8; the real server, conductor and store in another, on
// a folder of this machine's disk, every answer on the disk before its device hears so.
import { fork } from "node:child_process";
import { once } from "node:events";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { openStore } from "../../../electron/store/store.ts";
import { openRoom } from "../../faults/seats/room.ts";
import type { Asked, Told } from "./devices.ts";
import { doubledIn, endWith, lostIn, missedGoals, roomGoals } from "./goals.ts";

function quantile(values: readonly number[], share: number): number {
  const inOrder = values.toSorted((one, other) => one - other);
  return inOrder[Math.min(inOrder.length - 1, Math.floor(share * inOrder.length))] ?? Number.NaN;
}

/** Names that are nobody's. */
const invented = (count: number) => Array.from({ length: count }, (_, at) => `Leaf ${at + 1}`);

/** Prints one room's figures, and gives the goals that it missed. */
async function answers(seats: number, cues: number): Promise<string[]> {
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
  const figures = { seats, cues, marks, tripP99Ms: quantile(tripMs, 0.99) };
  const ms = (value: number) => `${value.toFixed(1)} ms`;
  console.log(
    [
      `${seats} seats, ${cues} cues: lost ${lostIn(figures)}, doubled ${doubledIn(figures)}`,
      `press to disk and back: median ${ms(quantile(tripMs, 0.5))}, p99 ${ms(figures.tripP99Ms)}`,
      `shown after due: p99 ${ms(quantile(beganMs, 0.99))}`,
      `all joined after ${(joinMs / 1_000).toFixed(1)} s, started in ${ms(startMs)}`,
    ].join("; "),
  );
  return missedGoals(figures);
}

/** Runs another bench in a process of its own, as when it is measured alone; true when it met its goals. */
async function meets(path: string, ...given: string[]): Promise<boolean> {
  const [code] = await once(fork(join(import.meta.dirname, path), given), "exit");
  return code === 0;
}

const asked = process.argv.slice(2).map(Number);
const rounds = asked.length > 0 ? asked : [36, 200, 500];
const missed: string[] = [];
console.log(`Goals: ${roomGoals}.`);
for (const seats of rounds) missed.push(...(await answers(seats, 5)));
if (!(await meets("own-cues.ts"))) missed.push("own cues, as said above");
if (!(await meets(join("..", "counts.ts"), "own"))) missed.push("counting own cues failed");
endWith(missed);
