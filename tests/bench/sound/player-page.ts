// The page that the sound bench runs when it measures the chime player alone.

import { addressOf } from "../../../src/sound/chime-address.ts";
import { type CueOutcome, createChimePlayer } from "../../../src/sound/chime-player.ts";
import { createClockSync } from "../../../src/sound/clock-sync.ts";
import { howlerOutput } from "../../../src/sound/howler-output.ts";
import { pageClock } from "../../../src/sound/page-clock.ts";

const told: (CueOutcome & { beganMonotonicMs?: number | null })[] = [];
const pairs: [number, number][] = [];
const output = howlerOutput(addressOf);
const player = createChimePlayer({
  output,
  clock: pageClock,
  onOutcome(outcome) {
    const began = outcome.kind === "began" ? sync.monotonicMsAt(outcome.beganAtMs) : null;
    told.push({ ...outcome, beganMonotonicMs: began });
  },
});
const sync = createClockSync({
  ask: async () => (await fetch("/clock")).json(),
  nowMs: pageClock.nowMs,
  after: pageClock.after,
});

async function begin() {
  await player.load();
  const status = await player.unlock();
  await sync.refresh();
  sync.keepFresh((problem) => console.error(problem));
  player.beginSession();
  new EventSource("/cues").onmessage = (message) => {
    const { cue, dueMonotonicMs } = JSON.parse(message.data);
    const { audioSeconds, pageMs } = output.clockPair();
    pairs.push([audioSeconds, pageMs]);
    const dueAtMs = sync.pageMsAt(dueMonotonicMs);
    if (dueAtMs !== null) player.schedule({ cue, chime: "bell", volume: 1 }, dueAtMs);
  };
  return status;
}

let ready: string | null = null;
document.body.textContent = "Click to begin.";
document.addEventListener("pointerdown", async () => {
  ready = await begin();
});
Object.assign(window, { bench: { ready: () => ready, told, pairs } });
