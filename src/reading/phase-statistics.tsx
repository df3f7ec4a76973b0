import type {
  PhaseComparison,
  PhaseDescription,
  PhaseSummary,
} from "../../shared/analysis/phases/phase-summary.ts";
import type { WatchedTwice } from "../../shared/reading/watched-twice.ts";
import type { Interval } from "../../shared/statistics/result.ts";
import { Scroll } from "../charts/scroll.tsx";
import { useVoice } from "../words/use-voice.ts";
import { signedPoints, type Voice, wordPhase } from "../words/words.ts";

interface PhaseStatisticsProps {
  readonly summary: PhaseSummary;
  /** In the order of the summary's phases. */
  readonly watchedTwice: readonly WatchedTwice[];
}

/** The phase statistics by their names; a number that does not exist says why. */
export function PhaseStatistics({ summary, watchedTwice }: PhaseStatisticsProps) {
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
              <th scope="col">{say("stat.standard")}</th>
              <th scope="col">{say("stat.twice")}</th>
            </tr>
          </thead>
          <tbody>
            {summary.phases.map((phase, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: phases are told apart by their order only
              <tr key={at}>
                {phaseCells(voice, phase, watchedTwice[at]).map((cell, column) =>
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
      <p className="progress-facts">{say("stat.standard.help")}</p>
      {summary.phases.map((phase, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: phases are told apart by their order only
        <Readiness key={at} phase={phase} />
      ))}
      {summary.comparisons.map((comparison) => (
        <Scroll
          label={comparisonTitle(voice, summary, comparison)}
          key={`${comparison.from} ${comparison.to}`}
        >
          <table className="progress-table">
            <caption>{comparisonTitle(voice, summary, comparison)}</caption>
            <tbody>
              {comparisonRows(voice, summary, comparison).map(({ name, value, meaning }) => (
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

/** Whether a baseline was enough to hold a program against: enough sessions, and not rising by itself. */
function Readiness({ phase }: { phase: PhaseDescription }) {
  const voice = useVoice();
  if (phase.readiness === null) return null;
  const { reason, points, rise } = phase.readiness;
  return (
    <p>
      {voice.say(`stat.readiness.${reason}`, {
        phase: wordPhase(voice, phase),
        points,
        rise: Math.round(100 * rise),
      })}
    </p>
  );
}

function phaseCells(voice: Voice, phase: PhaseDescription, twice: WatchedTwice | undefined) {
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
              p: wordP(voice, trend.probability),
            })
          : say(`progress.why.${trend.reason}`),
    },
    { name: "standard", value: say(`stat.standard.${phase.standard}`) },
    { name: "twice", value: twice === undefined ? "" : wordTwice(voice, twice) },
  ];
}

function wordTwice({ say, formats }: Voice, twice: WatchedTwice): string {
  if (twice.kind === "not-computable") return say(`progress.why.${twice.reason}`);
  return say("stat.twiceValue", {
    twice: twice.twice,
    observed: twice.observed,
    share: formats.percent(twice.share),
    meets: twice.meets ? "yes" : "other",
  });
}

/** The names of the two phases that are compared. */
function namesOf(voice: Voice, { phases }: PhaseSummary, { from, to }: PhaseComparison) {
  const name = (at: number) => {
    const phase = phases[at];
    return phase === undefined ? "" : wordPhase(voice, phase);
  };
  return { from: name(from), to: name(to) };
}

/** With who recorded them where not all phases are by one source: a phase may then stand here twice. */
function comparisonTitle(voice: Voice, summary: PhaseSummary, comparison: PhaseComparison): string {
  const names = namesOf(voice, summary, comparison);
  if (new Set(summary.phases.map(({ source }) => source)).size < 2) {
    return voice.say("stat.comparison", names);
  }
  const withSource = (phase: string, at: number) => {
    const source = summary.phases[at]?.source ?? "self";
    return voice.say("stat.phaseBy", { phase, source: voice.say(`graph.by.${source}`) });
  };
  return voice.say("stat.comparison", {
    from: withSource(names.from, comparison.from),
    to: withSource(names.to, comparison.to),
  });
}

/** A probability with its sign of relation: "= 0.114", "< 0.001". */
function wordP({ formats }: Voice, p: number): string {
  return p < 0.001 ? `< ${formats.number(0.001, 3)}` : `= ${formats.number(p, 3)}`;
}

/** Decisions as the catalogue names them; its choices take no hyphens. */
const decisions = {
  "change-shown": "shown",
  "no-change-shown": "notShown",
  "too-few-points": "few",
} as const;

function comparisonRows(voice: Voice, summary: PhaseSummary, comparison: PhaseComparison) {
  const { say, formats } = voice;
  const { immediacy, nap, mannWhitney, tau, downward } = comparison;
  const { pnd } = downward ?? comparison;
  const names = namesOf(voice, summary, comparison);
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
      name: say("stat.mannWhitney"),
      value:
        mannWhitney.kind === "computed"
          ? say("stat.mannWhitneyValue", {
              u: formats.number(mannWhitney.u, 1),
              p: wordP(voice, mannWhitney.p),
            })
          : say(`progress.why.${mannWhitney.reason}`),
      meaning: say(
        mannWhitney.kind === "computed" && mannWhitney.method === "normal"
          ? "stat.mannWhitney.normal"
          : "stat.mannWhitney.exact",
      ),
    },
    {
      name: say("stat.tau"),
      value:
        tau.kind === "computed"
          ? between(tau.value, tau.interval)
          : say(`progress.why.${tau.reason}`),
      meaning: say("stat.tau.help"),
    },
    correctedTauRow(voice, comparison, names),
    {
      name: say("stat.pnd"),
      value:
        pnd.kind === "computed" ? formats.percent(pnd.value) : say(`progress.why.${pnd.reason}`),
      meaning: say(downward === null ? "stat.pnd.help" : "stat.pnd.downHelp"),
    },
    {
      name: say("stat.logOdds"),
      value: wordLogOdds(voice, comparison),
      meaning: say("stat.logOdds.help"),
    },
    dualRow(voice, comparison, names),
  ];
}

interface PhaseNames {
  readonly from: string;
  readonly to: string;
}

/** Whether a trend of the earlier phase was taken off, and by which p; nothing where none was computed. */
function correctedTauRow(
  voice: Voice,
  { baselineCorrectedTau: tau }: PhaseComparison,
  { from }: PhaseNames,
) {
  const { say, formats } = voice;
  const name = say("stat.correctedTau");
  if (tau.kind === "not-computable") {
    return {
      name,
      value: say(`progress.why.${tau.reason}`),
      meaning: say("stat.correctedTau.none", { from }),
    };
  }
  return {
    name,
    value: formats.number(tau.value, 2),
    meaning: say(tau.corrected ? "stat.correctedTau.corrected" : "stat.correctedTau.plain", {
      from,
      p: wordP(voice, tau.trendProbability),
    }),
  };
}

function wordLogOdds({ say, formats }: Voice, { logOddsRatio }: PhaseComparison): string {
  if (logOddsRatio.kind === "not-computable") return say(`progress.why.${logOddsRatio.reason}`);
  const { standardError, smallSampleInterval: interval } = logOddsRatio;
  const value = formats.number(logOddsRatio.value, 2);
  if (standardError.kind === "not-computable" || interval === null) {
    return say("stat.logOddsNoError", { value, reason: say("progress.why.no-spread") });
  }
  return say("stat.logOddsValue", {
    value,
    error: formats.number(standardError.value, 2),
    low: formats.number(interval.lower, 2),
    high: formats.number(interval.upper, 2),
  });
}

/** The count above both lines, and where the lines lie; the lines exist also where no count suffices. */
function dualRow({ say, formats }: Voice, comparison: PhaseComparison, { from, to }: PhaseNames) {
  const { dualCriterion } = comparison.downward ?? comparison;
  const isDown = comparison.downward !== null;
  const name = say("stat.dual");
  const help = say(isDown ? "stat.dual.downHelp" : "stat.dual.help", { from });
  if (dualCriterion.kind === "not-computable") {
    return { name, value: say(`progress.why.${dualCriterion.reason}`), meaning: help };
  }
  const { needed, conservative } = dualCriterion;
  const { level, trendInB, above, decision } = conservative;
  const isOutside = trendInB.some((height) => height < 0 || height > 1);
  const lines = say("stat.dual.lines", {
    to,
    level: formats.percent(level),
    first: formats.percent(trendInB[0] ?? level),
    last: formats.percent(trendInB.at(-1) ?? level),
  });
  return {
    name,
    value:
      needed.kind === "not-computable"
        ? say(`progress.why.${needed.reason}`)
        : say(isDown ? "stat.dualDownValue" : "stat.dualValue", {
            above,
            needed: needed.value,
            decision: decisions[decision],
          }),
    meaning: [help, lines, isOutside ? say("stat.dual.outside") : ""].join(" ").trim(),
  };
}
