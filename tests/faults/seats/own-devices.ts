import type { Device } from "./room.ts";

/** What one device showed: its own numbers, and how long after their moment, in ms of real time. */
export interface ShownThere {
  readonly cues: { readonly cue: number; readonly lateMs: number }[];
}

/**
 * A device that shows each cue it is told of at its moment and answers it, as the page does: by its own
 * clock, set by the server's once.
 *
 * @param isAwake asked at the moment of each cue
 */
export async function answering(
  device: Device,
  isAwake: (cue: number) => boolean = () => true,
): Promise<ShownThere> {
  const t = performance.now();
  device.send({ kind: "clock", t });
  const { at } = await device.hears("clock", (told) => told.t === t);
  const ahead = at - (t + performance.now()) / 2;
  const now = () => performance.now() + ahead;
  const cues: { cue: number; lateMs: number }[] = [];
  const timers = new Map<number, NodeJS.Timeout>();
  device.socket.on("message", (data) => {
    const said = JSON.parse(String(data));
    if (said.kind === "cancelled") clearTimeout(timers.get(said.cue));
    if (said.kind !== "due") return;
    const { session, cue, atServer } = said;
    const show = () => {
      if (!isAwake(cue)) return;
      cues.push({ cue, lateMs: now() - atServer });
      device.send({ kind: "began", session, cue, by: "sign", at: Math.max(atServer, now()) });
      device.send({ kind: "mark", session, cue, value: cue % 3 === 0 ? "off" : "on" });
    };
    timers.set(cue, setTimeout(show, Math.max(0, atServer - now())));
  });
  return { cues };
}
