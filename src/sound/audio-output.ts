import type { SoundName } from "../../shared/plan/sound-names.ts";
import type { ClockPair } from "./clock-map.ts";

/** What the chime player needs of an audio system; the real one is `howlerOutput`. */
export interface AudioOutput {
  running(): boolean;
  /** The audio clock: the moment that is being rendered, in seconds. */
  audioSeconds(): number;
  /** What is heard at this moment, on both clocks. */
  clockPair(): ClockPair;
  /** Loads and decodes a chime; rejects when it cannot. */
  load(name: SoundName): Promise<void>;
  /** Asks for the context to run; whether it does is told by `running` later. */
  resume(): void;
  /**
   * Starts a loaded chime at a moment of the audio clock and at a linear gain of its own, 0 to 1; gives
   * back how to stop it softly.
   */
  start(name: SoundName, audioSeconds: number, volume: number): () => void;
  /** Plays a loaded chime at once, at a linear gain from 0 to 1; any other such fades first. */
  play(name: SoundName, volume: number): void;
  /** Calls back once the audio clock has passed a moment, never while it stands still. */
  whenReached(audioSeconds: number, then: () => void): () => void;
  /** While held awake the context is not put to sleep, and an inaudible tone keeps the device open. */
  holdAwake(awake: boolean): void;
  /** Whether a device is listed; some browsers list none until they are allowed to. May reject. */
  hasDevice(): Promise<boolean>;
  /** Tells of changes of the context's state, of its failure, and of devices coming and going. */
  onChange(listener: (change: "state" | "error" | "devices") => void): () => void;
}

/** The page's clock. */
export interface PageClock {
  /** performance.now() */
  nowMs(): number;
  /** Calls back after a time, gives back how to cancel that. */
  after(ms: number, then: () => void): () => void;
}
