import type { Trend } from "../../shared/analysis/trend.ts";
import type { StudentReading } from "../../shared/reading/student-reading.ts";
import type { LogisticTrend } from "../../shared/statistics/logistic.ts";
import type { Result } from "../../shared/statistics/result.ts";
import { Scroll } from "../charts/scroll.tsx";
import { useVoice } from "../words/use-voice.ts";
import { signedPoints, type Voice, wordNotEnough } from "../words/words.ts";
import { wordStretch } from "./trend-readings.tsx";

type TrendStatisticsProps = Pick<StudentReading, "self" | "present" | "presentLogistic">;

/** The trend statistics by their names, for the present phase and for the whole record beside it. */
export function TrendStatistics({ self, present, presentLogistic }: TrendStatisticsProps) {
  const voice = useVoice();
  const { say } = voice;
  const rows = [
    { name: say("trend.stat.slope"), of: (trend: Result<Trend>) => wordSlope(voice, trend) },
    { name: say("trend.stat.kendall"), of: (trend: Result<Trend>) => wordKendall(voice, trend) },
  ];
  return (
    <Scroll label={say("trend.stat.table")}>
      <table className="progress-table">
        <caption>{say("trend.stat.table")}</caption>
        <thead>
          <tr>
            <th scope="col">{say("trend.stat.name")}</th>
            <th scope="col">{wordStretch(voice, present)}</th>
            <th scope="col">{say("trend.stat.whole")}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, of }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{of(present.trend)}</td>
              <td>{of(self.trend)}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">{say("trend.stat.logistic")}</th>
            <td>{wordLogistic(voice, presentLogistic)}</td>
            <td>{wordLogistic(voice, self.logistic)}</td>
          </tr>
        </tbody>
      </table>
    </Scroll>
  );
}

function wordSlope(voice: Voice, trend: Result<Trend>): string {
  if (trend.kind === "not-enough") return wordNotEnough(voice, trend);
  const { lower, upper } = trend.intervalPointsPerWeek;
  return voice.say("trend.stat.slopeValue", {
    slope: signedPoints(voice, trend.slopePointsPerWeek, 1),
    low: signedPoints(voice, lower, 1),
    high: signedPoints(voice, upper, 1),
  });
}

function wordKendall(voice: Voice, trend: Result<Trend>): string {
  if (trend.kind === "not-enough") return wordNotEnough(voice, trend);
  const { say, formats } = voice;
  return say("trend.stat.kendallValue", {
    sessions: trend.sessions,
    tau: formats.number(trend.tau, 2).replace("-", "−"),
    p: formats.number(trend.p, 3),
    method: trend.method,
    alike: trend.serialFactor > 1 ? "yes" : "no",
    factor: formats.number(trend.serialFactor, 2),
  });
}

/** Odds a week with their interval, and by which fit; or why there are none. */
function wordLogistic(voice: Voice, logistic: Result<LogisticTrend>): string {
  if (logistic.kind === "not-enough") return wordNotEnough(voice, logistic);
  const { say, formats } = voice;
  const { slope, interval, method, dispersion } = logistic;
  const odds = {
    odds: wordOdds(voice, slope),
    low: wordOdds(voice, interval.lower),
    high: wordOdds(voice, interval.upper),
  };
  return method === "firth" || dispersion === null
    ? say("trend.stat.firth", odds)
    : say("trend.stat.quasi", { ...odds, dispersion: formats.number(dispersion, 2) });
}

/** Beyond these the odds of a short record mean nothing more. */
const mostOdds = 1_000;

function wordOdds({ formats }: Voice, slope: number): string {
  const odds = Math.exp(slope);
  if (odds > mostOdds) return `> ${formats.number(mostOdds)}`;
  if (odds < 1 / mostOdds) return `< ${formats.number(1 / mostOdds, 3)}`;
  return formats.number(odds, 2);
}
