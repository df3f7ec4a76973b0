import type { PointsStandard } from "../../shared/analysis/phases/points-standard.ts";
import { useVoice } from "../words/use-voice.ts";

/** A probability that is hard to explain by chance. Common practice, no source. */
const hardByChance = 0.05;

/** As the catalogue names them; its choices take no hyphens. */
export const standardChoices: Readonly<Record<PointsStandard, string>> = {
  meets: "meets",
  "with-reservations": "reservations",
  "does-not-meet": "other",
};

/** What an exact test of a drawn design found, and what may be made of it. */
export function DrawnResult(props: {
  /** The numbers in words. */
  found: string;
  probability: number;
  redrawn: boolean;
  shown: string;
  notShown: string;
}) {
  const { say } = useVoice();
  const { found, probability, redrawn, shown, notShown } = props;
  const meaning = probability <= hardByChance ? shown : notShown;
  return (
    <p>
      {found} {redrawn ? say("designs.notExact") : meaning}
    </p>
  );
}
