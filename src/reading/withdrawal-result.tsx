import type { WithdrawalReading } from "../../shared/reading/drawn/withdrawal-reading.ts";
import { useVoice } from "../words/use-voice.ts";

/** A probability that is hard to explain by chance. Common practice, no source. */
const hardByChance = 0.05;

/** What a program shows that was taken away and came back on drawn days. */
export function WithdrawalResult({ withdrawal }: { withdrawal: WithdrawalReading | null }) {
  const { say, formats } = useVoice();
  if (withdrawal === null) return null;
  const { test, redrawn } = withdrawal;
  if (test.kind === "not-computable") return <p>{say(`designs.whyWithdrawal.${test.reason}`)}</p>;
  const isShown = test.probability <= hardByChance;
  return (
    <p>
      {say("designs.withdrawalResult", {
        ways: test.ways,
        share: formats.percent(test.probability),
        points: Math.round(100 * test.difference),
        p: formats.number(test.probability, 3),
      })}{" "}
      {redrawn
        ? say("designs.notExact")
        : say(isShown ? "designs.withdrawalShown" : "designs.withdrawalNotShown")}
    </p>
  );
}
