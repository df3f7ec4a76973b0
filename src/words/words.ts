import type { Rung } from "../../shared/advice/ladder.ts";
import type { AgreementSummary } from "../../shared/agreement/agreement-summary.ts";
import type { PhaseSummary } from "../../shared/analysis/phases/phase-summary.ts";
import { isSteady } from "../../shared/analysis/statements/steady.ts";
import type { TrendStatement } from "../../shared/analysis/statements/trend-statement.ts";
import type { WeekStatement } from "../../shared/analysis/statements/week-statement.ts";
import { dayNumber, dayText, mondayOf } from "../../shared/calendar/calendar.ts";
import type { Phase } from "../../shared/phase/phase.ts";
import type { Flag } from "../../shared/reading/flags.ts";
import type { RecentCorrected } from "../../shared/reading/recent-corrected.ts";
import { daysOf, isShort } from "../../shared/reading/short-trend.ts";
import { fewestForOneSession } from "../../shared/schedule/precision.ts";
import type { Interval, NotEnough, Result } from "../../shared/statistics/result.ts";
import type { Say, useFormats } from "../text/text.tsx";
import { wordEvery } from "./plan-summary.ts";

export type Formats = ReturnType<typeof useFormats>;

/** What every sentence of these screens is made with. */
export interface Voice {
  readonly say: Say;
  readonly formats: Formats;
}

/** Percentage points with their sign: "+8", "−3", "0". */
export function signedPoints({ formats }: Voice, points: number, digits = 0): string {
  const size = formats.number(Math.abs(points), digits);
  if (Number(Math.abs(points).toFixed(digits)) === 0) return size;
  return points > 0 ? `+${size}` : `−${size}`;
}

/** Why a number is withheld, and what is still missing. */
export function wordNotEnough({ say }: Voice, { reason, have, need }: NotEnough): string {
  return say(`progress.need.${reason}`, { have, need, more: Math.max(0, need - have) });
}

/** What a sentence on two weeks needs, of one student or of a class. */
type SaidWeek = Pick<
  WeekStatement,
  "points" | "interval" | "direction" | "evidence" | "week" | "before" | "weeksApart"
>;

/** This week against the last one, as it can be read to a parent. */
export function wordWeekChange(voice: Voice, change: Result<SaidWeek>, today: string): string {
  if (change.kind === "not-enough") return wordNotEnough(voice, change);
  const { say, formats } = voice;
  const { evidence, direction, interval, weeksApart } = change;
  const points = Math.round(Math.abs(change.points));
  const thisWeek = dayText(mondayOf(dayNumber(today)));
  // What rounds to nothing is not called a change.
  return say(`progress.week.${points === 0 ? "cannot-tell" : evidence}`, {
    direction: points === 0 ? "level" : direction,
    points,
    newer: change.week === thisWeek ? "this" : "other",
    day: formats.shortDay(change.week),
    older: weeksApart === 1 ? "before" : "other",
    earlier: formats.shortDay(change.before),
    ...spanOfPoints(voice, interval, 1),
  });
}

/** What a sentence on a trend needs, of one student or of a class. */
export type SaidTrend = Pick<
  TrendStatement,
  "pointsPerWeek" | "interval" | "direction" | "evidence" | "sessions" | "days"
>;

/** Whether the rate rises, falls or holds steady across sessions. */
export function wordTrend(voice: Voice, trend: Result<SaidTrend>): string {
  if (trend.kind === "not-enough") return wordNotEnough(voice, trend);
  const { say, formats } = voice;
  const { direction, sessions, interval } = trend;
  const days = daysOf(trend);
  const fitsAnything = interval.lower < -100 || interval.upper > 100;
  if (trend.evidence === "cannot-tell" && (isShort(trend) || fitsAnything)) {
    return say("trend.anything", { sessions, days });
  }
  if (isShort(trend)) {
    const sure = trend.evidence === "clear" ? "yes" : "other";
    return say("trend.short", { sure, direction, sessions, days });
  }
  const word = isSteady(trend) ? "steady" : trend.evidence;
  const digits = digitsOf(
    trend.evidence === "cannot-tell"
      ? Math.max(-interval.lower, interval.upper)
      : trend.pointsPerWeek,
  );
  return say(`progress.trend.${word}`, {
    direction,
    sessions,
    days,
    points: formats.number(Math.abs(trend.pointsPerWeek), digits),
    ...spanOfPoints(voice, interval, 1, digits),
  });
}

/**
 * So many digits that a slope over years of sessions, which is small, is not said to be 0.0, nor to fit
 * "anything from 0.0 to 0.0".
 */
const digitsOf = (points: number): number =>
  [1, 2].find((digits) => Number(Math.abs(points).toFixed(digits)) !== 0) ?? 3;

/** Why a student is pointed out. */
export function wordFlag({ say, formats }: Voice, flag: Flag): string {
  switch (flag.kind) {
    case "few-sessions":
      return say("progress.flag.few-sessions", { have: flag.have, need: flag.need });
    case "few-answers":
      return say("progress.flag.few-answers", { share: formats.percent(flag.share) });
    case "low-agreement":
      return say("progress.flag.low-agreement", {
        share: formats.percent(flag.share),
        compared: flag.compared,
      });
    case "records-flatter":
      return say("progress.flag.records-flatter", { compared: flag.compared });
    case "rate-falling":
      return say("progress.flag.rate-falling", {
        over: flag.over,
        sessions: flag.sessions,
        short: flag.short ? "yes" : "other",
        points: formats.number(flag.pointsPerWeek, 1),
      });
  }
}

/** What else the true rate could be. */
export function wordInterval({ say, formats }: Voice, { lower, upper }: Interval): string {
  return say("progress.interval", {
    low: formats.percent(lower),
    high: formats.percent(upper),
  });
}

/** What else one session's share could have been; a week says more where cues are few. */
export function wordSessionInterval(
  { say, formats }: Voice,
  { interval, marks }: { readonly interval: Interval; readonly marks: number },
): string {
  return say("sure.session", {
    low: formats.percent(interval.lower),
    high: formats.percent(interval.upper),
    few: marks < fewestForOneSession ? "yes" : "other",
  });
}

/** How well record and what an adult saw match, in one sentence. */
export function wordAgreement(
  { say, formats }: Voice,
  { percent, reading }: AgreementSummary,
): string {
  if (percent.kind === "not-computable") return say("match.unknown.no-checks");
  const values = {
    share: formats.percent(percent.value),
    matching: percent.matching,
    compared: percent.compared,
    low: formats.percent(percent.interval.lower),
    high: formats.percent(percent.interval.upper),
  };
  if (reading.match !== "cannot-tell") return say(`match.${reading.match}`, values);
  return say(`match.unknown.${reading.reason}`, values);
}

/**
 * The recent rate by the adult's eye beside the recorded one; nothing where checks of both kinds are too few.
 * On paper for a family it is the adults' eye, not yours.
 */
export function wordCorrected(
  { say, formats }: Voice,
  { sessions, rate }: RecentCorrected,
  name: string,
  id: "match.corrected" | "print.match.corrected" = "match.corrected",
): string | null {
  if (rate.kind === "not-computable") return null;
  return say(id, {
    name,
    sessions,
    rate: formats.percent(rate.value),
    low: formats.percent(rate.interval.lower),
    high: formats.percent(rate.interval.upper),
    recorded: formats.percent(rate.recorded),
  });
}

/** What was recorded where the adult saw no work; nothing where work was seen at every checked cue. */
export function wordOffRecordedOn(
  { say, formats }: Voice,
  { offRecordedOn }: Pick<AgreementSummary, "offRecordedOn">,
): string | null {
  if (offRecordedOn.kind === "not-computable") return null;
  const { seenOff, recordedOn, interval } = offRecordedOn;
  return say("match.off", {
    seenOff,
    recordedOn,
    low: formats.percent(interval.lower),
    high: formats.percent(interval.upper),
  });
}

/** A phase's name: the teacher's own words, else its kind. */
export function wordPhase({ say }: Voice, { label, kind }: Pick<Phase, "label" | "kind">): string {
  return label === "" ? say(`phase.${kind}`) : label;
}

function spanOfPoints(voice: Voice, { lower, upper }: Interval, factor: number, digits = 0) {
  return {
    low: signedPoints(voice, factor * lower, digits),
    high: signedPoints(voice, factor * upper, digits),
  };
}

/** The mean rate of each phase and who recorded it, in order of time. */
export function wordLevels(voice: Voice, { phases }: Pick<PhaseSummary, "phases">): string {
  return phases
    .flatMap((phase) =>
      phase.level.kind === "computed"
        ? voice.say("graph.levelBy", {
            phase: wordPhase(voice, phase),
            rate: voice.formats.percent(phase.level.mean),
            source: voice.say(`graph.by.${phase.source}`),
          })
        : [],
    )
    .join(" ");
}

/** A step of the ladder: its mean interval while there are cues, else what it is. */
export function wordStep({ say }: Voice, meanSeconds: number | undefined, rung: Rung): string {
  if (meanSeconds === undefined) return say(`rung.${rung}`);
  return say("advice.step", { mean: wordEvery(say, meanSeconds) });
}
