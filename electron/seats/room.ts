import type { FromSeat, ToSeat } from "../../shared/seats/message.ts";

/** One device's line, as the room sees it. */
export interface SeatLine {
  tell(message: ToSeat): void;
  /** Says why, and hangs up. */
  close(why: Extract<ToSeat, { readonly kind: "closed" }>["why"]): void;
}

/** What a device that has joined says after its code. */
export type SeatWord = Exclude<FromSeat, { readonly kind: "hello" }>;

/** A device whose code was right. */
export interface Joined {
  /** False for a word that this kind of device may not say: the line is closed. */
  hear(word: SeatWord): boolean;
  gone(): void;
}

/**
 * All that the seats' server may ask of the app. It knows nothing else: no procedure, no carrier, no store
 * is within its reach, which a test of the imports holds.
 */
export interface SeatRoom {
  /** The device whose code this is; null for a code that nobody has. */
  join(code: string, line: SeatLine): Promise<Joined | null>;
  /** After many wrong codes joining pauses for so long, in ms. */
  joiningPaused(ms: number): void;
}
