import { agreementSummary } from "../../agreement/agreement-summary.ts";
import { splitIntoPhases } from "../../analysis/phases/phase-series.ts";
import { recentChecks } from "../../analysis/recent.ts";
import { rateStatement } from "../../analysis/statements/rate-statement.ts";
import {
  type RecordReading,
  readPhases,
  readPresent,
  sessionsBy,
} from "../../analysis/statements/record-reading.ts";
import type { GroupCounts } from "../../record/group-counts.ts";
import type { SessionCount } from "../../record/session-count.ts";
import type { Result } from "../../statistics/result.ts";
import { asPair } from "../as-pair.ts";
import { phasesFor } from "../phase-spans.ts";
import { sessionsOf } from "../session-counts.ts";
import { type OfTen, ofTen } from "./of-ten.ts";

/** Something that went well, true by the rules of the adults' pages or by counting alone. */
export type WentWell =
  /** The share of yes has risen since a day; `clear` or `probable` as everywhere. */
  | { readonly kind: "rising"; readonly sure: "clear" | "probable"; readonly since: string }
  /** More yes than in the phase before, clearly, and both recorded by the student. */
  | { readonly kind: "more-than-before" }
  /** The goal was reached in this many of the newest sessions. */
  | { readonly kind: "goal"; readonly reached: number; readonly of: number }
  /** What was recorded matches what adults saw, by the rule of match. */
  | { readonly kind: "match" }
  /** Nearly every cue was answered. */
  | { readonly kind: "answered"; readonly answered: number; readonly asked: number }
  /** The session of these weeks with the most yes. */
  | { readonly kind: "best"; readonly day: string; readonly on: number; readonly marks: number }
  /** Said where nothing else can be. */
  | { readonly kind: "took-part"; readonly sessions: number; readonly marks: number };

/** What a page for one student's family says, in codes; words are the page's. */
export interface FamilyReading {
  readonly studentId: string;
  /** The sessions it speaks of, by their first and last day; null before there are any. */
  readonly lately: {
    readonly first: string;
    readonly last: string;
    readonly sessions: number;
    /** Answers, and those that were yes. */
    readonly marks: number;
    readonly on: number;
  } | null;
  /** Of every ten times asked; withheld under three sessions or too few answers, where counts alone are said. */
  readonly often: Result<OfTen> | null;
  readonly well: readonly WentWell[];
  /** Yes has come less often of late, by the rule of a lasting fall or by the trend of the present phase. */
  readonly harder: boolean;
}

/** This many sessions are told of: about two school weeks. Common practice, no source. */
const told = 10;
/** A number out of ten is said from this many answers on, as a percentage is to a child. */
const fewestForTen = 20;
/** Goals are counted over this many sessions, of which this many must have reached it to be told. */
const goalOver = 5;
const goalFewest = 2;
/** Answering is praised from this share on, over at least this many cues. Common practice, no source. */
const answeredShare = 0.9;
const answeredFewest = 10;
/** A best session has at least this many answers, and more yes than no. */
const bestFewest = 4;
/** More would not be read. */
const mostTold = 4;

/**
 * What to tell a family of the newest sessions of the present phase, by the student's own record.
 *
 * @param goal on-task rate to hold, 0 to 1; null where there is none
 */
export function readFamily(
  counts: GroupCounts,
  studentId: string,
  goal: number | null,
): FamilyReading {
  const sessions = sessionsOf(counts, studentId);
  const phases = splitIntoPhases(phasesFor(counts.phases, studentId), sessions);
  const begun = phasesFor(counts.phases, studentId).filter(
    ({ startsOn }) => startsOn <= counts.today,
  );
  const present = readPresent(begun.at(-1) ?? null, sessions);
  const since = present.phase?.startsOn ?? "";
  const own = sessionsBy(sessions, "self").filter(
    (session) => session.day >= since && session.on + session.off > 0,
  );
  const newest = own.slice(-told);
  const [on, marks] = [sum(newest, ({ on: yes }) => yes), sum(newest, marksOf)];
  const checks = recentChecks(
    sessions,
    counts.checks.filter((check) => check.studentId === studentId),
  );
  const harder = isHarder(present);
  const well = [
    ...(harder ? [] : risingIn(present)),
    ...(harder ? [] : moreThanBefore(readPhases(phases))),
    ...goalReached(newest, goal),
    ...matching(agreementSummary(checks.map(asPair)).reading.match),
    ...answeredIn(newest),
    ...bestOf(newest),
  ].slice(0, mostTold);
  const tookPart: WentWell = { kind: "took-part", sessions: newest.length, marks };
  const [first, last] = [newest[0], newest.at(-1)];
  return {
    studentId,
    lately:
      first === undefined || last === undefined
        ? null
        : { first: first.day, last: last.day, sessions: newest.length, marks, on },
    often: marks < fewestForTen ? null : tenths(newest),
    well: well.length > 0 || marks === 0 ? well : [tookPart],
    harder,
  };
}

const marksOf = ({ on, off }: SessionCount): number => on + off;
const sum = (sessions: readonly SessionCount[], of: (session: SessionCount) => number): number =>
  sessions.reduce((total, session) => total + of(session), 0);

function tenths(sessions: readonly SessionCount[]): Result<OfTen> {
  const stated = rateStatement([sessions]);
  if (stated.kind === "not-enough") return stated;
  return { kind: "enough", ...ofTen(stated.rate, stated.interval) };
}

type Present = Pick<RecordReading, "phase" | "source" | "trend" | "recent" | "fall">;

/** The newest sessions alone where the phase is long, all of it otherwise. */
const newestTrend = ({ trend, recent }: Present) => (recent?.kind === "enough" ? recent : trend);

function isHarder(present: Present): boolean {
  if (present.source !== "self") return false;
  if (present.fall !== null) return true;
  const trend = newestTrend(present);
  return trend.kind === "enough" && trend.direction === "down" && trend.evidence === "clear";
}

function risingIn(present: Present): WentWell[] {
  const trend = newestTrend(present);
  if (present.source !== "self" || trend.kind === "not-enough") return [];
  if (trend.direction !== "up" || trend.evidence === "cannot-tell") return [];
  return [{ kind: "rising", sure: trend.evidence, since: trend.from.day }];
}

/** Only where both phases are the student's own: a baseline that an adult saw is another yardstick. */
function moreThanBefore(phases: RecordReading["phases"]): WentWell[] {
  const last = phases.at(-1);
  if (last === undefined || last.kind === "not-enough" || last.sourcesDiffer) return [];
  const isMore = last.wanted === "up" && last.outcome === "as-wanted";
  return isMore ? [{ kind: "more-than-before" }] : [];
}

function goalReached(sessions: readonly SessionCount[], goal: number | null): WentWell[] {
  if (goal === null) return [];
  const counted = sessions.slice(-goalOver);
  // In whole marks, as the student counts them: 4 of 5 reach a goal of 80 %.
  const reached = counted.filter((session) => session.on >= goal * marksOf(session) - 1e-9).length;
  return reached < goalFewest ? [] : [{ kind: "goal", reached, of: counted.length }];
}

const matching = (match: string): WentWell[] => (match === "good" ? [{ kind: "match" }] : []);

function answeredIn(sessions: readonly SessionCount[]): WentWell[] {
  const answered = sum(sessions, marksOf);
  const asked = answered + sum(sessions, ({ missing }) => missing);
  const isMost = asked >= answeredFewest && answered >= answeredShare * asked;
  return isMost ? [{ kind: "answered", answered, asked }] : [];
}

function bestOf(sessions: readonly SessionCount[]): WentWell[] {
  const best = sessions
    .filter((session) => marksOf(session) >= bestFewest && session.on > session.off)
    .toSorted((one, other) => other.on / marksOf(other) - one.on / marksOf(one))[0];
  if (best === undefined) return [];
  return [{ kind: "best", day: best.day, on: best.on, marks: marksOf(best) }];
}
