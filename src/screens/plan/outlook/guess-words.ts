import type { Guess, GuessVerdict } from "../../../../shared/schedule/guess.ts";

/** Which words say what a listener could guess. */
export interface GuessWords {
  readonly sentence: `guess.${GuessVerdict}`;
  /** Cues in 100 by which the cleverest listener beats chance. */
  readonly gain: number;
  /** The warning, where the plan needs one. */
  readonly advice: `guess.${Exclude<GuessVerdict, "hardToGuess">}.advice` | null;
  /** The gain of a listener who forgets the block, where remembering it gives away the most; or null. */
  readonly forgetful: number | null;
}

export function guessWords(found: Guess): GuessWords {
  const { verdict, beatsChanceBy, floorGivesAway, blockGivesAway } = found;
  const forgetful = Math.max(beatsChanceBy, floorGivesAway);
  return {
    sentence: `guess.${verdict}`,
    gain: 100 * Math.max(forgetful, blockGivesAway),
    advice: verdict === "hardToGuess" ? null : `guess.${verdict}.advice`,
    forgetful: blockGivesAway > forgetful ? 100 * forgetful : null,
  };
}
