import { type Bouts, usualDaySpread } from "../../../../shared/schedule/precision.ts";

export const spellNames = ["short", "medium", "long"] as const;
export type SpellName = (typeof spellNames)[number];

/**
 * Mean bouts to choose from, in seconds; three fifths of the time at work in each, so that only the length
 * of the spells differs. Our own choice, no source.
 */
export const spells: Readonly<Record<SpellName, Bouts>> = {
  short: { onSeconds: 30, offSeconds: 20 },
  medium: { onSeconds: 90, offSeconds: 60 },
  long: { onSeconds: 300, offSeconds: 200 },
};

/** Changes to look for, as shares. Up to 0.3, every one fits on one side of any rate or the other. */
export const changesWanted = [0.1, 0.15, 0.2, 0.3] as const;

/** How much days differ: standard deviation of the true rate, a share. Our own choice, no source. */
export const daySpreads = { little: 0.05, usual: usualDaySpread, much: 0.15 } as const;
export type DaySpread = keyof typeof daySpreads;
