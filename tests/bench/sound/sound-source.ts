import type { Browser, Page } from "./rig.ts";

/** What one case asks of whatever sounds the cues. */
export interface CueOrder {
  readonly cues: number;
  readonly gapMs: readonly [shortest: number, longest: number];
  readonly seed: string;
  /** Quiet before the first cue, in ms; the sound server takes some seconds to learn its own delay. */
  readonly quietMs: number;
}

/** What was planned and what the program says it did; moments are of performance.now() here. */
export interface CueRecord {
  /** Of the cues that were to sound. */
  readonly dueMs: readonly number[];
  /** How many were not to sound, because their moment fell into a sleep. */
  readonly sleptThrough: number;
  readonly beganMs: readonly number[];
  /** Reasons given for cues that did not sound. */
  readonly failures: readonly string[];
}

/** When all was stopped, and when it was woken. */
export interface Sleep {
  readonly stoppedMs: number;
  readonly wokeMs: number;
}

/** A page that sounds cues, opened in a browser. */
export interface Sounding {
  readonly page: Page;
  /**
   * Puts the program and its page to sleep, wakes them, and has a session that waits go on.
   */
  sleep(ms: number): Promise<Sleep>;
  /** Resolves when the last cue has rung out. */
  finish(): Promise<CueRecord>;
  /** Memory that program and browser hold now, in MB; pages that they share count in each. */
  memoryMb(): number;
  close(): void;
}

/** The program under measurement: the built app, or the chime player alone. */
export type SoundSource = (browser: Browser, order: CueOrder) => Promise<Sounding>;
