import type { AudioOutput, PageClock } from "./audio-output.ts";
import type { SoundStatus } from "./decide-start.ts";

/** A running audio clock that stands still this long has lost its device. */
const stallMs = 1500;

/** What an output can do now, and whether that has changed. */
export type OutputWatch = ReturnType<typeof watchOutput>;

export function watchOutput(
  output: AudioOutput,
  clock: PageClock,
  onStatus: (status: SoundStatus) => void,
) {
  let everRan = output.running();
  let deviceGone = false;
  let deviceListed = false;
  let told: SoundStatus | null = null;
  let lastMove = { audioSeconds: -1, atMs: clock.nowMs() };
  // Notes what is listed at first.
  void isDeviceGone();

  function status(): SoundStatus {
    if (deviceGone) return "device-lost";
    if (!output.running()) return everRan ? "suspended" : "locked";
    return stalled() ? "device-lost" : "ready";
  }

  function stalled(): boolean {
    const audioSeconds = output.audioSeconds();
    const nowMs = clock.nowMs();
    if (audioSeconds !== lastMove.audioSeconds || !output.running()) {
      lastMove = { audioSeconds, atMs: nowMs };
      return false;
    }
    return nowMs - lastMove.atMs > stallMs;
  }

  function tell(): void {
    const now = status();
    if (now === told) return;
    told = now;
    onStatus(now);
  }

  /** A device is missed only where one was listed before; a list that cannot be had says nothing. */
  async function isDeviceGone(): Promise<boolean> {
    try {
      const isListed = await output.hasDevice();
      deviceListed ||= isListed;
      return deviceListed && !isListed;
    } catch {
      return false;
    }
  }

  function noteRunning(): void {
    if (output.running()) everRan = true;
  }

  return {
    status,
    /** Tells the status where it is another than was told. */
    tell,
    /** Once it ran, an output that does not is suspended rather than locked. */
    noteRunning,
    /** Takes in what the output says of itself; tells nothing yet. */
    note(change: "state" | "error" | "devices"): void {
      noteRunning();
      lastMove = { audioSeconds: -1, atMs: clock.nowMs() };
      if (change === "state" && output.running()) deviceGone = false;
      if (change === "error") deviceGone = true;
    },
    /** Looks for the device after what is connected has changed. */
    async lookForDevice(): Promise<void> {
      deviceGone = await isDeviceGone();
    },
  };
}
