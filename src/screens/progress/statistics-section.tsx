import { More } from "../../parts/more.tsx";
import { AgreementTables } from "../../reading/agreement-reading.tsx";
import { PhaseStatistics } from "../../reading/phase-statistics.tsx";
import { TrendStatistics } from "../../reading/trend-statistics.tsx";
import { useVoice } from "../../words/use-voice.ts";
import type { SectionProps } from "./section-props.ts";

/** Every statistic of the page behind one press, by name, with the rules behind the page's words. */
export function StatisticsSection({ reading }: Pick<SectionProps, "reading">) {
  const { say } = useVoice();
  const { agreement, agreementByWeek, phases, watchedTwice } = reading;
  if (reading.points.length === 0) return null;
  return (
    <More className="progress-more" label={say("progress.behind")}>
      <h2>{say("progress.changing")}</h2>
      <p>{say("trend.otherMethods")}</p>
      <TrendStatistics {...reading} />
      <p>{say("trend.wholeCaution")}</p>
      <p>{say("trend.stat.logisticHelp")}</p>
      {phases.phases.length === 0 ? null : (
        <>
          <h2>{say("progress.program")}</h2>
          <PhaseStatistics summary={phases} watchedTwice={watchedTwice} />
        </>
      )}
      {agreement.percent.kind === "not-computable" ? null : (
        <>
          <h2>{say("match.title")}</h2>
          <AgreementTables agreement={agreement} weeks={agreementByWeek} />
        </>
      )}
      <h2>{say("progress.evidence")}</h2>
      <p>{say("trend.presentRule")}</p>
      <p>{say("progress.evidence.rule")}</p>
      <p>{say("progress.evidence.methods")}</p>
    </More>
  );
}
