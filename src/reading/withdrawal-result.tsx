import type { WithdrawalReading } from "../../shared/reading/drawn/withdrawal-reading.ts";
import { useVoice } from "../words/use-voice.ts";
import { DrawnResult, standardChoices } from "./drawn-result.tsx";

/** What a program shows that was taken away and came back on drawn days, and how it stands to the standard. */
export function WithdrawalResult({ withdrawal }: { withdrawal: WithdrawalReading | null }) {
  const { say, formats } = useVoice();
  if (withdrawal === null) return null;
  const { test, redrawn, points, standard } = withdrawal;
  return (
    <>
      {test.kind === "not-computable" ? (
        <p>{say(`designs.whyWithdrawal.${test.reason}`)}</p>
      ) : (
        <DrawnResult
          found={say("designs.withdrawalResult", {
            ways: test.ways,
            share: formats.percent(test.probability),
            points: Math.round(100 * test.difference),
            p: formats.number(test.probability, 3),
          })}
          probability={test.probability}
          redrawn={redrawn}
          shown={say("designs.withdrawalShown")}
          notShown={say("designs.withdrawalNotShown")}
        />
      )}
      <p>
        {say("designs.withdrawalStanding", {
          phases: points.length,
          points: Math.min(...points),
          standard: standardChoices[standard],
        })}
      </p>
    </>
  );
}
