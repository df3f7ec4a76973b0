import type { PhaseComparison } from "../../../shared/analysis/phases/phase-summary.ts";
import { MissingMarks } from "../../reading/missing-marks.tsx";
import { useVoice } from "../../words/use-voice.ts";
import { type Voice, wordPhase } from "../../words/words.ts";
import { LinesLeft } from "../lines-left.tsx";
import { comparisonsPrinted } from "./compared-phases.tsx";
import { leftOut } from "./left-out.ts";
import { ReportMatch } from "./report-match.tsx";
import type { ReportProps, SheetProps } from "./report-parts.ts";

/** As many as fit with everything else on the second sheet; those left out are counted there. */
const phasesPrinted = 4;
const mostWeeks = 6;
/** Of both tables together: where there are many phases, fewer weeks are printed. */
const rowsPrinted = 8;

const weeksPrinted = ({ phases }: ReportProps["reading"]): number =>
  Math.min(mostWeeks, rowsPrinted - Math.min(phasesPrinted, phases.phases.length));

/** The second sheet: whether it is true, numbers by week and phase, how they were made, and what they do not say. */
export function ReportNumbers(props: SheetProps) {
  const { say } = useVoice();
  const { has } = props;
  return (
    <div className="report report-numbers">
      <p>{say("print.report.second", { name: props.name, group: props.counts.group.name })}</p>
      {has("match") ? <ReportMatch {...props} /> : <MissingMarks reading={props.reading} />}
      {has("weekTable") ? <WeekTable {...props} /> : null}
      {has("phaseTable") ? <PhaseTable {...props} /> : null}
      <section>
        <h3>{say("print.report.cautions")}</h3>
        <p>{say("progress.caution")}</p>
      </section>
      {has("leftOut") ? <LeftOutList {...props} /> : null}
      {has("methods") ? (
        <section className="report-methods">
          <h3>{say("print.report.methods")}</h3>
          <p>
            {say("report.methods", {
              drawn: props.reading.phases.randomization === null ? "no" : "yes",
            })}
          </p>
        </section>
      ) : null}
      {has("notes") ? (
        <section className="report-lines">
          <h3>{say("print.report.agreed")}</h3>
          <LinesLeft />
        </section>
      ) : null}
    </div>
  );
}

function WeekTable({ reading }: ReportProps) {
  const { say, formats } = useVoice();
  const { weeks } = reading;
  if (weeks.length === 0) return null;
  const checks = new Map(reading.agreementByWeek.map(({ monday, summary }) => [monday, summary]));
  return (
    <table className="report-table">
      <caption>
        {say("print.report.weeks", { shown: Math.min(weeksPrinted(reading), weeks.length) })}
      </caption>
      <thead>
        <tr>
          <th scope="col">{say("weeks.week")}</th>
          <th scope="col">{say("weeks.sessions")}</th>
          <th scope="col">{say("graph.rate")}</th>
          <th scope="col">{say("graph.interval")}</th>
          <th scope="col">{say("print.report.answered")}</th>
          <th scope="col">{say("print.report.matching")}</th>
        </tr>
      </thead>
      <tbody>
        {weeks.slice(-weeksPrinted(reading)).map(({ start, pooled, counts, sessionIds }) => {
          const percent = checks.get(start)?.percent;
          const marks = counts.on + counts.off;
          const isKnown = pooled.kind === "enough";
          return (
            <tr key={start}>
              <th scope="row">{formats.day(start)}</th>
              <td>{formats.number(sessionIds.length)}</td>
              <td>{isKnown ? formats.percent(pooled.rate) : "–"}</td>
              <td>
                {isKnown
                  ? `${formats.percent(pooled.interval.lower)} – ${formats.percent(pooled.interval.upper)}`
                  : "–"}
              </td>
              <td>{say("print.report.of", { part: marks, whole: marks + counts.missing })}</td>
              <td>
                {percent?.kind === "computed"
                  ? say("print.report.of", { part: percent.matching, whole: percent.compared })
                  : "–"}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function PhaseTable({ reading }: ReportProps) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { phases, comparisons } = reading.phases;
  if (phases.length === 0) return null;
  const skipped = Math.max(0, phases.length - phasesPrinted);
  return (
    <table className="report-table">
      <caption>{say("stat.phases")}</caption>
      <thead>
        <tr>
          <th scope="col">{say("stat.phase")}</th>
          <th scope="col">{say("graph.source")}</th>
          <th scope="col">{say("stat.points")}</th>
          <th scope="col">{say("stat.mean")}</th>
          <th scope="col">{say("stat.median")}</th>
          <th scope="col">{say("report.spread")}</th>
          <th scope="col">{say("report.nap")}</th>
        </tr>
      </thead>
      <tbody>
        {phases.slice(skipped).map((phase, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: phases are told apart by their order only
          <tr key={at}>
            <th scope="row">{wordPhase(voice, phase)}</th>
            <td>{say(`graph.by.${phase.source}`)}</td>
            <td>{formats.number(phase.points)}</td>
            <td>{phase.level.kind === "computed" ? formats.percent(phase.level.mean) : "–"}</td>
            <td>{phase.level.kind === "computed" ? formats.percent(phase.level.median) : "–"}</td>
            <td>
              {phase.spread.kind === "computed"
                ? say("report.points", {
                    points: formats.number(100 * phase.spread.standardDeviation, 1),
                  })
                : "–"}
            </td>
            <td>
              {wordNap(
                voice,
                comparisons.find(({ to }) => to === skipped + at),
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The effect size of a phase against the one before it; a dash where there is none. */
function wordNap({ say, formats }: Voice, comparison: PhaseComparison | undefined): string {
  if (comparison === undefined || comparison.nap.kind === "not-computable") return "–";
  const { value, interval } = comparison.nap;
  return say("stat.withInterval", {
    value: formats.number(value, 2),
    low: formats.number(interval.lower, 2),
    high: formats.number(interval.upper, 2),
  });
}

/** What the report is silent about. A number of zero is not worth a line. */
function LeftOutList({ counts, reading }: ReportProps) {
  const { say } = useVoice();
  const found = leftOut(counts, reading.studentId);
  const olderWeeks = Math.max(0, reading.self.weeks.length - weeksPrinted(reading));
  const olderPhases = Math.max(0, reading.phases.phases.length - phasesPrinted);
  const olderComparisons = Math.max(0, reading.phases.comparisons.length - comparisonsPrinted);
  const lines = [
    { id: "print.left.withoutMarks", count: found.withoutMarks },
    { id: "print.left.notThere", count: found.notThere },
    { id: "print.left.missingMarks", count: found.missingMarks },
    { id: "print.left.observedOnly", count: found.observedOnly },
    { id: "print.left.olderWeeks", count: olderWeeks },
    { id: "print.left.olderPhases", count: olderPhases },
    { id: "print.left.olderComparisons", count: olderComparisons },
  ] as const;
  return (
    <section>
      <h3>{say("print.report.leftOut")}</h3>
      <ul className="report-left">
        <li>{say("print.left.practice")}</li>
        {lines
          .filter(({ count }) => count > 0)
          .map(({ id, count }) => (
            <li key={id}>{say(id, { count })}</li>
          ))}
        <li>{say("print.left.notes")}</li>
      </ul>
    </section>
  );
}
