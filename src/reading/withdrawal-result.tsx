import type { WithdrawalReading } from "../../shared/reading/drawn/withdrawal-reading.ts";
import { useSay } from "../text/text.tsx";
import { DrawnDesign, standardChoices } from "./drawn-result.tsx";

/** What a program shows that was taken away and came back on drawn days. */
export function WithdrawalResult({ withdrawal }: { withdrawal: WithdrawalReading | null }) {
  const say = useSay();
  if (withdrawal === null) return null;
  const { test, redrawn, points, standard } = withdrawal;
  return (
    <DrawnDesign
      test={test}
      redrawn={redrawn}
      why={(reason) => say(`designs.whyWithdrawal.${reason}`)}
      found={(values) => say("designs.withdrawalResult", values)}
      shown={say("designs.withdrawalShown")}
      notShown={say("designs.withdrawalNotShown")}
      standing={say("designs.withdrawalStanding", {
        phases: points.length,
        points: Math.min(...points),
        standard: standardChoices[standard],
      })}
    />
  );
}
