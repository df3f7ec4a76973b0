import { type Device, knock, showNext } from "../../faults/seats/room.ts";

// A room's devices in a process of their own, as they are in a class: what they do costs the server nothing.

/** What the process is asked for. */
export interface Asked {
  readonly port: number;
  readonly codes: readonly string[];
  readonly cues: number;
  /** Devices of one address. */
  readonly anAddress: number;
  /** Answers come within this time after a cue, in ms. */
  readonly withinMs: number;
}

export type Told =
  | { readonly kind: "joined"; readonly ms: number }
  /** In ms: from a press to its confirmation, and from a cue's moment to its showing. */
  | { readonly kind: "done"; readonly tripMs: number[]; readonly beganMs: number[] };

/** So many are let in at once; each code is hashed slowly. */
const atOnce = 20;

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, Math.max(0, ms)));
const tell = (told: Told) => process.send?.(told);

async function join({ port, codes, anAddress }: Asked, at: number): Promise<Device> {
  const device = await knock(port, { from: `127.0.7.${1 + Math.floor(at / anAddress)}` });
  device.send({ kind: "hello", code: codes[at] ?? "" });
  await device.hears("seat");
  device.send({ kind: "ready", carriers: ["sign"] });
  // From now on: one that says nothing is asleep, and a line on which nothing comes for a minute is closed.
  setInterval(() => device.send({ kind: "alive" }), 5_000).unref();
  return device;
}

async function run(asked: Asked): Promise<void> {
  const devices: Device[] = [];
  const from = performance.now();
  for (let at = 0; at < asked.codes.length; at += atOnce) {
    const places = asked.codes.slice(at, at + atOnce).map((_, beside) => at + beside);
    devices.push(...(await Promise.all(places.map((place) => join(asked, place)))));
  }
  const begun = new Promise((resolve) => process.once("message", resolve));
  tell({ kind: "joined", ms: performance.now() - from });
  await begun;
  const tripMs: number[] = [];
  const beganMs: number[] = [];
  let last = 0;
  for (let round = 0; round < asked.cues; round += 1) {
    const before = last;
    await Promise.all(
      devices.map(async (device, at) => {
        const { atServer } = await device.hears("due", (due) => due.cue > before);
        const { session, cue } = await showNext(device, before);
        const t = performance.now();
        device.send({ kind: "clock", t });
        const { at: now } = await device.hears("clock", (told) => told.t === t);
        beganMs.push(now - atServer);
        await pause(((at + 0.5) / devices.length) * asked.withinMs);
        const sent = performance.now();
        const kept = device.hears("kept", ({ marks }) => marks.some((mark) => mark.cue === cue));
        device.send({ kind: "mark", session, cue, value: at % 3 === 0 ? "off" : "on" });
        await kept;
        tripMs.push(performance.now() - sent);
        last = Math.max(last, cue);
      }),
    );
  }
  for (const { socket } of devices) socket.terminate();
  tell({ kind: "done", tripMs, beganMs });
}

process.once("message", (asked: Asked) => void run(asked));
