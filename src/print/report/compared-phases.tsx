import type { StudentReading } from "../../../shared/reading/student-reading.ts";
import { Comparison, Randomization } from "../../reading/phase-comparison.tsx";
import { useSay } from "../../text/text.tsx";

/** The last changes of phase are the ones a meeting asks about, and more would not fit on the sheet. */
export const comparisonsPrinted = 2;

/** Neighbouring phases compared in words, and what such a comparison cannot show. */
export function ComparedPhases({ reading }: { reading: StudentReading }) {
  const say = useSay();
  const { phases, comparisons, caution } = reading.phases;
  const skipped = Math.max(0, comparisons.length - comparisonsPrinted);
  return (
    <>
      {comparisons.slice(skipped).map((comparison, at) => (
        <Comparison
          key={`${comparison.from} ${comparison.to}`}
          comparison={comparison}
          phases={phases}
          said={reading.said.phases[skipped + at]}
        />
      ))}
      <Randomization reading={reading} />
      {caution === "none" ? null : <p>{say(`progress.cause.${caution}`)}</p>}
    </>
  );
}
