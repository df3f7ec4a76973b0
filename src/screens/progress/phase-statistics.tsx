import type {
  PhaseComparison,
  PhaseDescription,
  PhaseSummary,
} from "../../../shared/analysis/phases/phase-summary.ts";
import type { Interval } from "../../../shared/analysis/types.ts";
import { Scroll } from "../../charts/scroll.tsx";
import { useVoice } from "./use-voice.ts";
import { signedPoints, type Voice, wordPhase } from "./words.ts";

/** The phase statistics by their names; a number that does not exist says why. */
export function PhaseStatistics({ summary }: { summary: PhaseSummary }) {
  const voice = useVoice();
  const { say } = voice;
  return (
    <>
      <Scroll label={say("stat.phases")}>
        <table className="progress-table">
          <caption>{say("stat.phases")}</caption>
          <thead>
            <tr>
              <th scope="col">{say("stat.phase")}</th>
              <th scope="col">{say("graph.source")}</th>
              <th scope="col">{say("stat.points")}</th>
              <th scope="col">{say("stat.mean")}</th>
              <th scope="col">{say("stat.median")}</th>
              <th scope="col">{say("stat.spread")}</th>
              <th scope="col">{say("stat.trend")}</th>
            </tr>
          </thead>
          <tbody>
            {summary.phases.map((phase, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: phases are told apart by their order only
              <tr key={at}>
                {phaseCells(voice, phase).map((cell, column) =>
                  column === 0 ? (
                    <th key={cell.name} scope="row">
                      {cell.value}
                    </th>
                  ) : (
                    <td key={cell.name}>{cell.value}</td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {summary.comparisons.map((comparison) => (
        <Scroll
          label={comparisonTitle(voice, summary, comparison)}
          key={`${comparison.from} ${comparison.to}`}
        >
          <table className="progress-table">
            <caption>{comparisonTitle(voice, summary, comparison)}</caption>
            <tbody>
              {comparisonRows(voice, comparison).map(({ name, value, meaning }) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  <td>{value}</td>
                  <td className="progress-facts">{meaning}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      ))}
    </>
  );
}

function phaseCells(voice: Voice, phase: PhaseDescription) {
  const { say, formats } = voice;
  const { level, spread, trend } = phase;
  return [
    { name: "phase", value: wordPhase(voice, phase) },
    { name: "source", value: say(`graph.by.${phase.source}`) },
    { name: "points", value: formats.number(phase.points) },
    {
      name: "mean",
      value:
        level.kind === "computed"
          ? formats.percent(level.mean)
          : say(`progress.why.${level.reason}`),
    },
    { name: "median", value: level.kind === "computed" ? formats.percent(level.median) : "" },
    {
      name: "spread",
      value:
        spread.kind === "computed"
          ? say("stat.spreadValue", {
              deviation: formats.number(100 * spread.standardDeviation, 1),
              lowest: formats.percent(spread.lowest),
              highest: formats.percent(spread.highest),
            })
          : say(`progress.why.${spread.reason}`),
    },
    {
      name: "trend",
      value:
        trend.kind === "computed"
          ? say("stat.trendValue", {
              slope: signedPoints(voice, 100 * trend.slopePerWeek, 1),
              low: signedPoints(voice, 100 * trend.interval.lower, 1),
              high: signedPoints(voice, 100 * trend.interval.upper, 1),
            })
          : say(`progress.why.${trend.reason}`),
    },
  ];
}

function comparisonTitle(voice: Voice, { phases }: PhaseSummary, { from, to }: PhaseComparison) {
  const name = (at: number) => {
    const phase = phases[at];
    return phase === undefined ? "" : wordPhase(voice, phase);
  };
  return voice.say("stat.comparison", { from: name(from), to: name(to) });
}

/** Decisions as the catalogue names them; its choices take no hyphens. */
const decisions = {
  "change-shown": "shown",
  "no-change-shown": "notShown",
  "too-few-points": "few",
} as const;

function comparisonRows(voice: Voice, comparison: PhaseComparison) {
  const { say, formats } = voice;
  const { immediacy, nap, tau, baselineCorrectedTau, pnd, logOddsRatio, dualCriterion } =
    comparison;
  const between = (value: number, { lower, upper }: Interval, digits = 2) =>
    say("stat.withInterval", {
      value: formats.number(value, digits),
      low: formats.number(lower, digits),
      high: formats.number(upper, digits),
    });
  return [
    {
      name: say("stat.immediacy"),
      value:
        immediacy.kind === "computed"
          ? say("stat.pointsValue", { points: signedPoints(voice, 100 * immediacy.value) })
          : say(`progress.why.${immediacy.reason}`),
      meaning: say("stat.immediacy.help"),
    },
    {
      name: say("stat.nap"),
      value:
        nap.kind === "computed"
          ? between(nap.value, nap.interval)
          : say(`progress.why.${nap.reason}`),
      meaning: say("stat.nap.help"),
    },
    {
      name: say("stat.tau"),
      value:
        tau.kind === "computed"
          ? between(tau.value, tau.interval)
          : say(`progress.why.${tau.reason}`),
      meaning: say("stat.tau.help"),
    },
    {
      name: say("stat.correctedTau"),
      value:
        baselineCorrectedTau.kind === "computed"
          ? formats.number(baselineCorrectedTau.value, 2)
          : say(`progress.why.${baselineCorrectedTau.reason}`),
      meaning:
        baselineCorrectedTau.kind === "computed" && baselineCorrectedTau.corrected
          ? say("stat.correctedTau.corrected")
          : say("stat.correctedTau.plain"),
    },
    {
      name: say("stat.pnd"),
      value:
        pnd.kind === "computed" ? formats.percent(pnd.value) : say(`progress.why.${pnd.reason}`),
      meaning: say("stat.pnd.help"),
    },
    {
      name: say("stat.logOdds"),
      value:
        logOddsRatio.kind === "not-computable"
          ? say(`progress.why.${logOddsRatio.reason}`)
          : logOddsRatio.interval === null || logOddsRatio.standardError.kind === "not-computable"
            ? formats.number(logOddsRatio.value, 2)
            : say("stat.logOddsValue", {
                value: formats.number(logOddsRatio.value, 2),
                error: formats.number(logOddsRatio.standardError.value, 2),
                low: formats.number(logOddsRatio.interval.lower, 2),
                high: formats.number(logOddsRatio.interval.upper, 2),
              }),
      meaning: say("stat.logOdds.help"),
    },
    {
      name: say("stat.dual"),
      value:
        dualCriterion.kind === "not-computable"
          ? say(`progress.why.${dualCriterion.reason}`)
          : dualCriterion.needed.kind === "not-computable"
            ? say(`progress.why.${dualCriterion.needed.reason}`)
            : say("stat.dualValue", {
                above: dualCriterion.conservative.above,
                needed: dualCriterion.needed.value,
                decision: decisions[dualCriterion.conservative.decision],
              }),
      meaning: say("stat.dual.help"),
    },
  ];
}
