import seedrandom from "seedrandom";
import { openPlayerHost } from "./player-host.ts";
import { memoryOf, type Page } from "./rig.ts";
import type { CueOrder, Sounding, SoundSource } from "./sound-source.ts";

/** The chime player on a bare page, told of its cues as the conductor tells them. */
export const playerSource: SoundSource = async (browser, order): Promise<Sounding> => {
  const host = await openPlayerHost();
  const page = await browser.open(host.url);
  await page.click(100, 100);
  await becomeReady(page);
  return {
    page,
    async sleep() {
      throw new Error(
        "The chime player alone cannot sleep: what its session does then is the app's.",
      );
    },
    async finish() {
      const dueMs = schedule(order);
      await host.callCues(dueMs);
      const told = await page.evaluate("bench.told");
      if (!Array.isArray(told)) throw new Error("The page kept no list of what it reported.");
      return {
        dueMs,
        sleptThrough: 0,
        beganMs: told.flatMap((outcome) => outcome.beganMonotonicMs ?? []),
        failures: told.flatMap((outcome) => outcome.reason ?? []),
      };
    },
    memoryMb: () => memoryOf([browser.process]),
    close: host.close,
  };
};

async function becomeReady(page: Page): Promise<void> {
  for (let turn = 0; turn < 300; turn++) {
    const ready = await page.evaluate("bench.ready()");
    if (ready === "ready") return;
    if (ready !== null) throw new Error(`The page's sound is ${ready}.`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error("The page's sound did not get ready within thirty seconds.");
}

function schedule({ cues, gapMs: [shortest, longest], seed, quietMs }: CueOrder): number[] {
  const draw = seedrandom(`bench/${seed}`);
  let due = performance.now() + quietMs;
  return Array.from({ length: cues }, () => {
    due += shortest + draw() * (longest - shortest);
    return due;
  });
}
