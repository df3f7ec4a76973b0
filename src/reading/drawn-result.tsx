import type { PointsStandard } from "../../shared/analysis/phases/points-standard.ts";
import type { NotComputable } from "../../shared/statistics/computed.ts";
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

interface Computed {
  readonly kind: "computed";
  readonly probability: number;
  readonly difference: number;
  readonly ways: number;
}

/** The numbers of an exact test as a sentence takes them. */
type FoundValues = Readonly<Record<"ways" | "share" | "points" | "p", string | number>>;

/** What a design shows whose days were drawn, or why there is no test yet, and how it stands to the standard. */
export function DrawnDesign<Reason extends string>(props: {
  test: Computed | NotComputable<Reason>;
  redrawn: boolean;
  why: (reason: Reason) => string;
  found: (values: FoundValues) => string;
  shown: string;
  notShown: string;
  standing: string;
}) {
  const { formats } = useVoice();
  const { test, redrawn, why, found, shown, notShown, standing } = props;
  return (
    <>
      {test.kind === "not-computable" ? (
        <p>{why(test.reason)}</p>
      ) : (
        <DrawnResult
          found={found({
            ways: test.ways,
            share: formats.percent(test.probability),
            points: Math.round(100 * test.difference),
            p: formats.number(test.probability, 3),
          })}
          probability={test.probability}
          redrawn={redrawn}
          shown={shown}
          notShown={notShown}
        />
      )}
      <p>{standing}</p>
    </>
  );
}
