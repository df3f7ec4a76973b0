// The devices of `own-cues.ts`, in a process of their own: what they measure is not held up by the server.
import { answering, type ShownThere } from "../../faults/seats/own-devices.ts";
import { type Device, knock, until } from "../../faults/seats/room.ts";

export interface OwnAsked {
  readonly port: number;
  /** By seat number, from 1. */
  readonly codes: readonly string[];
  /** Devices of one address. */
  readonly anAddress: number;
  /** How many of them, the first ones, sleep through about every second cue. */
  readonly sleepers: number;
}

export type OwnTold =
  | { readonly kind: "joined" }
  | { readonly kind: "done"; readonly shown: readonly ShownThere["cues"][] };

const tell = (told: OwnTold) => process.send?.(told);

async function run({ port, codes, anAddress, sleepers }: OwnAsked): Promise<void> {
  const devices: { device: Device; shown: ShownThere }[] = [];
  for (const [at, code] of codes.entries()) {
    const device = await knock(port, { from: `127.0.8.${1 + Math.floor(at / anAddress)}` });
    device.send({ kind: "hello", code });
    await device.hears("seat");
    device.send({ kind: "ready", carriers: ["sign"] });
    // Chance is wanted here: each run lets others sleep.
    const isAwake = () => at >= sleepers || Math.random() < 0.5;
    devices.push({ device, shown: await answering(device, isAwake) });
  }
  // A device that says nothing is asleep: the sleepers speak only when they show a cue.
  setInterval(() => {
    for (const { device } of devices.slice(sleepers)) device.send({ kind: "alive" });
  }, 5_000).unref();
  tell({ kind: "joined" });
  const ended = ({ device }: (typeof devices)[number]) =>
    device.heard.some((told) => told.kind === "state" && told.is === "ended");
  await until(() => devices.every(ended), "the end of the session", 120_000);
  tell({ kind: "done", shown: devices.map(({ shown }) => shown.cues) });
  process.disconnect();
}

process.once("message", (asked: OwnAsked) => void run(asked));
