import type { ReactNode } from "react";
import type { GroupReading } from "../../../shared/reading/group-reading.ts";
import type { StudentReading } from "../../../shared/reading/student-reading.ts";
import { More } from "../../parts/more.tsx";
import { Section } from "../../parts/page.tsx";
import { Comparison, Randomization } from "../../reading/phase-comparison.tsx";
import { PhaseStatistics } from "../../reading/phase-statistics.tsx";
import { WithdrawalResult } from "../../reading/withdrawal-result.tsx";
import { useVoice } from "../../words/use-voice.ts";

interface ProgramProps {
  /** One student's, or the group's as a whole. */
  readonly reading: Pick<
    StudentReading,
    "phases" | "timesDrawn" | "watchedTwice" | "withdrawal"
  > & {
    readonly said: Pick<StudentReading["said"] | GroupReading["said"], "phases">;
  };
  /** What else was drawn, and what it shows. */
  readonly children?: ReactNode;
  /** Statistics by name that only this reading has. */
  readonly deeper?: ReactNode;
  /** Where a page has its statistics in one place, they are not here. */
  readonly isPlain?: boolean;
}

/** Is it the program: plain words first, the statistics one click deeper, and what they cannot show. */
export function ProgramSection({ reading, children, deeper, isPlain = false }: ProgramProps) {
  const { say } = useVoice();
  const { phases, comparisons, caution } = reading.phases;
  return (
    <Section title={say("progress.program")}>
      {comparisons.map((comparison, at) => (
        <Comparison
          key={`${comparison.from} ${comparison.to}`}
          comparison={comparison}
          phases={phases}
          said={reading.said.phases[at]}
        />
      ))}
      <Randomization reading={reading} />
      <WithdrawalResult withdrawal={reading.withdrawal} />
      {children}
      {caution === "none" ? null : <p>{say(`progress.cause.${caution}`)}</p>}
      {isPlain || phases.length === 0 ? null : (
        <More className="progress-more" label={say("progress.statistics")}>
          <PhaseStatistics summary={reading.phases} watchedTwice={reading.watchedTwice} />
          {deeper}
        </More>
      )}
    </Section>
  );
}
