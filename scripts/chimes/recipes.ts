import type { ShippedSound } from "../../shared/plan/sound-names.ts";
import {
  type Draw,
  dampen,
  fmTone,
  type Mode,
  mixIn,
  pluckString,
  silence,
  softenEnds,
  strike,
} from "./synthesis.ts";

/**
 * How each chime is made, before its loudness is set. All start softly and die away to silence.
 *
 * Lengths and damping were chosen so that in every chime the loudest 400 ms stand 3.1 to 3.7 LU above
 * the gated loudness: chimes that measure alike over their whole length then also strike alike.
 */
export const recipes: Readonly<Record<ShippedSound, (draw: Draw) => Float64Array>> = {
  /** A small hand bell: the partials of a tuned bell, each doubled a little off for a slow shimmer. */
  bell(draw) {
    const partials: Mode[] = [
      { ratio: 0.5, level: 0.35, ringSeconds: 5 },
      { ratio: 1, level: 1, ringSeconds: 4 },
      { ratio: 1.2, level: 0.5, ringSeconds: 3.2 },
      { ratio: 1.5, level: 0.3, ringSeconds: 2.4 },
      { ratio: 2, level: 0.5, ringSeconds: 2.2 },
      { ratio: 2.66, level: 0.2, ringSeconds: 0.8 },
      { ratio: 3, level: 0.2, ringSeconds: 0.7 },
    ];
    const shimmer = partials.map((mode) => ({
      ...mode,
      ratio: mode.ratio * (1.0015 + draw() * 0.001),
      level: mode.level * 0.5,
    }));
    const sound = strike(660, [...partials, ...shimmer], 1.1, draw);
    return softenEnds(dampen(sound, 4), 0.008, 0.8);
  },

  /** Two taps on a hollow wood block, the second lower. */
  wood(draw) {
    const block: Mode[] = [
      { ratio: 1, level: 1, ringSeconds: 0.4 },
      { ratio: 1.52, level: 0.3, ringSeconds: 0.2 },
      { ratio: 2.61, level: 0.2, ringSeconds: 0.11 },
      { ratio: 4.2, level: 0.08, ringSeconds: 0.07 },
    ];
    const sound = silence(0.8);
    mixIn(sound, softenEnds(strike(880, block, 0.8, draw), 0.007, 0.1), 0, 0.85);
    mixIn(sound, softenEnds(strike(660, block, 0.8, draw), 0.007, 0.1), 0.26);
    return softenEnds(dampen(sound, 8), 0.006, 0.6);
  },

  /** The rim of a wine glass, tapped: few, high, wide-spaced partials. */
  glass(draw) {
    const rim: Mode[] = [
      { ratio: 1, level: 1, ringSeconds: 3.2 },
      { ratio: 1.004, level: 0.6, ringSeconds: 3 },
      { ratio: 2.32, level: 0.3, ringSeconds: 1.6 },
      { ratio: 4.25, level: 0.12, ringSeconds: 0.5 },
    ];
    return softenEnds(dampen(strike(1318.51, rim, 0.9, draw), 4), 0.012, 0.6);
  },

  /** A low wooden bar over its tube: two notes, a fourth apart, overtones tuned to 4 and 10. */
  marimba(draw) {
    const bar: Mode[] = [
      { ratio: 1, level: 1, ringSeconds: 1.3 },
      { ratio: 4, level: 0.25, ringSeconds: 0.35 },
      { ratio: 10, level: 0.06, ringSeconds: 0.12 },
    ];
    const sound = silence(1);
    mixIn(sound, softenEnds(strike(392, bar, 1, draw), 0.006, 0.2), 0, 0.9);
    mixIn(sound, softenEnds(strike(523.25, bar, 1, draw), 0.006, 0.2), 0.26);
    return softenEnds(dampen(sound, 12), 0.006, 0.8);
  },

  /** A singing bowl, rubbed rather than struck: low, slow to rise, beating. */
  bowl(draw) {
    const rim: Mode[] = [
      { ratio: 1, level: 1, ringSeconds: 7 },
      { ratio: 1.006, level: 0.7, ringSeconds: 7 },
      { ratio: 2.71, level: 0.5, ringSeconds: 5 },
      { ratio: 2.722, level: 0.35, ringSeconds: 5 },
      { ratio: 5.16, level: 0.15, ringSeconds: 1.6 },
    ];
    return softenEnds(strike(277.18, rim, 1.8, draw), 0.06, 0.8);
  },

  /** Two plucked strings, a fifth apart. */
  pluck(draw) {
    const sound = silence(1);
    mixIn(sound, softenEnds(pluckString(293.66, 1.8, 1, draw), 0.006, 0.1), 0);
    mixIn(sound, softenEnds(pluckString(440, 1.6, 1, draw), 0.006, 0.1), 0.16);
    return softenEnds(dampen(sound, 8), 0.006, 0.8);
  },

  /** "Session begins": three rising notes of a soft electric piano. */
  begin() {
    return softenEnds(dampen(threeNotes([392, 493.88, 587.33], 1.9), 8), 0.008, 0.6);
  },

  /** "Session ends": the same notes, falling. */
  end() {
    return softenEnds(dampen(threeNotes([587.33, 493.88, 392], 2), 8), 0.008, 0.6);
  },
};

function threeNotes(pitches: readonly [number, number, number], seconds: number): Float64Array {
  const tone = { ratio: 1, index: 1.6, brightSeconds: 0.9, ringSeconds: 1.6 };
  const sound = silence(seconds);
  pitches.forEach((pitch, place) => {
    mixIn(sound, softenEnds(fmTone(pitch, tone, seconds), 0.008, 0.4), place * 0.32);
  });
  return sound;
}
