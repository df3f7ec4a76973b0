// Prints the figures of own cues: 40 devices, each asked at its own moments, ten of them asleep now and then.
//   npm run bench:own-cues
// The devices are in a process of their own; the real server, conductor and store in another, on a folder of
// this machine's disk, at ten times the speed of a lesson; what a device says is compared with the log, cue by
// cue. Fails where a goal is missed (goals.ts).
import { fork } from "node:child_process";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { openStore } from "../../../electron/store/store.ts";
import { selfCounts } from "../../../shared/record/counts.ts";
import { ownSchedule } from "../../../shared/schedule/own-schedule.ts";
import { replay } from "../../../shared/session/reduce.ts";
import { cuesOf } from "../../../shared/session/state.ts";
import { openRoom } from "../../faults/seats/room.ts";
import { endWith, missedOwnGoals, ownGoals } from "./goals.ts";
import type { OwnAsked, OwnTold } from "./own-devices.ts";

const seats = 40;
const sleepers = 10;
/** Devices of one address. */
const anAddress = 20;
/** About ten cues a student; at this speed the shortest gap lasts three seconds. */
const plan = {
  cueing: "own",
  law: "exponential",
  meanSeconds: 60,
  shortestGapSeconds: 30,
  lengthSeconds: 630,
} as const;

function quantile(values: readonly number[], share: number): number {
  const inOrder = values.toSorted((one, other) => one - other);
  return inOrder[Math.min(inOrder.length - 1, Math.floor(share * inOrder.length))] ?? Number.NaN;
}

const room = await openRoom({
  clock: systemClock(10),
  students: Array.from({ length: seats }, (_, at) => `Leaf ${at + 1}`),
  socketsAnAddress: anAddress,
  plan,
});
const devices = fork(join(import.meta.dirname, "own-devices.ts"));
const hears = <Kind extends OwnTold["kind"]>(kind: Kind) =>
  new Promise<Extract<OwnTold, { kind: Kind }>>((resolve, reject) => {
    devices.on("message", (told: OwnTold) => {
      if (told.kind === kind) resolve(told as Extract<OwnTold, { kind: Kind }>);
    });
    devices.once("exit", () => reject(new Error("The devices' process ended.")));
  });
const [joined, done] = [hears("joined"), hears("done")];
const codes = room.slips.map(({ code }) => code);
devices.send({ port: room.port, codes, anAddress, sleepers } satisfies OwnAsked);
await joined;
const { id, seed, plan: ran } = await room.start();
const { shown: shownThere } = await done;
const ids = room.students.map((student) => student.id);
await room.close(false);
const store = openStore({ folder: room.folder, now: Date.now });
const log = store.log.read(id, 0);
store.close();
rmSync(room.folder, { recursive: true, force: true });

const state = replay(log);
const planned = ownSchedule(ran, seed, ids);
let [delivered, undelivered, wrong, missing, slept] = [0, 0, 0, 0, 0];
for (const [at, studentId] of ids.entries()) {
  const shown = new Set(shownThere[at]?.map(({ cue }) => cue));
  for (const { cue } of planned.filter((own) => own.studentId === studentId)) {
    const standing = cuesOf(state, studentId).get(cue)?.standing;
    if (standing === "delivered") delivered++;
    if (standing === "undelivered") undelivered++;
    if (!shown.has(cue)) slept++;
    if ((standing === "delivered") !== shown.has(cue)) wrong++;
  }
  missing += selfCounts(state, studentId)?.missing ?? 0;
}
const lateMs = shownThere.flatMap((cues) => cues.map((cue) => cue.lateMs));
const loggedMs = log.flatMap(({ body }) =>
  body.kind === "delivered" && body.latenessMs !== null ? [body.latenessMs] : [],
);
const ms = (value: number) => `${value.toFixed(1)} ms`;
const lateP99Ms = quantile(lateMs, 0.99);
console.log(`Goals: ${ownGoals}.`);
console.log(
  [
    `${seats} seats, ${planned.length} own cues: ${delivered} shown, ${undelivered} not (${slept} asleep), ${wrong} told otherwise, ${missing} counted as missing`,
    `began after due: median ${ms(quantile(lateMs, 0.5))}, p99 ${ms(lateP99Ms)}; as logged: p99 ${ms(quantile(loggedMs, 0.99))}`,
  ].join("; "),
);
endWith(missedOwnGoals({ wrong, missing, lateP99Ms }));
