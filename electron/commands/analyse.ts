import type { PhaseComparison, StartDraw } from "../../shared/analysis/phases/phase-summary.ts";
import type { Stated } from "../../shared/analysis/statements/statement.ts";
import { dayNumber, dayText } from "../../shared/calendar/calendar.ts";
import { phaseKinds } from "../../shared/phase/phase.ts";
import type { Flag } from "../../shared/reading/flags.ts";
import { moreSessionColumns, sessionColumns } from "../../shared/transfer/session-columns.ts";
import { type Command, CommandError } from "./command.ts";
import { readFileOptions } from "./read-options.ts";
import { readText } from "./read-text.ts";
import { type PhasedSession, readSessions } from "./session-rows.ts";
import { statisticsKeys } from "./statistics-keys.ts";
import { groupStatistics, studentStatistics } from "./student-statistics.ts";
import type { WorkDone } from "./work-done.ts";

const help = `Usage: cli analyse FILE [options]

Everything the analysis can say about each student's sessions, and about all students together: rates
with intervals, weeks, trend, patterns, phases compared. Self-records and observer data are kept apart.

FILE is CSV with the columns ${sessionColumns.join(",")}, and optionally
${moreSessionColumns.join(",")}, as the app saves them; "-" reads standard input.
  student     name or code
  started_at  ISO 8601 with offset, such as 2026-03-02T09:15:00+01:00
  phase       ${phaseKinds.join(", ")}; more words may follow, as in "fading 2";
              empty for no phase: the session counts in the rates and in no phase
  source      self or observer
  on_task     cues marked on task
  off_task    cues marked off task
  no_mark     cues delivered and not marked; no data, never counted as off task
  subject     what was worked on
  assigned, completed, correct
              items of work in that session, on one of its lines; correct may be empty
An apostrophe before =, +, - or @ guards a text against spreadsheets and is taken off.
Bad rows: all are listed by line and nothing is computed (exit code 2).

  --json              {about, students: [{student, reading, flags, self, observer, acrossSources,
                      present, work}], group: {reading, betweenCase, self, observer, acrossSources, present}},
                      every key explained in "about"; reading is what may be said in a headline
  --drawn-from DAYS   the days from which the program's first day was drawn at random, as
                      2026-03-09,2026-03-10,...; adds the exact randomization test
  --drawn DAY         the day that was drawn
  --help              this text

Keys
${Object.entries(statisticsKeys)
  .map(([key, meaning]) => `  ${key}\n      ${meaning}`)
  .join("\n")}`;

/** The analysis of a file of counted sessions. */
export const analyse: Command = {
  summary: "rates, weeks, trend and phases of each student, from a file of sessions",
  help,
  async run(args, output) {
    const { path, values } = readFileOptions("analyse", args, {
      json: { type: "boolean", default: false },
      "drawn-from": { type: "string" },
      drawn: { type: "string" },
    });
    const draw = readDraw(values["drawn-from"], values.drawn);
    const rows = byStudent(readSessions(await readText(path)));
    if (draw !== undefined) for (const [student, held] of rows) refuseMoved(student, held, draw);
    const students = rows.map(([student, sessions]) => ({
      student,
      ...studentStatistics(sessions, draw),
    }));
    const group = groupStatistics(
      rows.map(([, sessions]) => sessions),
      draw,
    );
    if (values.json) {
      return output.write(
        `${JSON.stringify({ about: statisticsKeys, students, group }, null, 2)}\n`,
      );
    }
    const pages = students.map(page);
    if (students.length > 1) pages.push(page({ student: "All together", ...group, work: null }));
    output.write(`${pages.join("\n\n")}\n`);
  },
};

function byStudent(sessions: readonly PhasedSession[]): [string, PhasedSession[]][] {
  const students = new Map<string, PhasedSession[]>();
  for (const session of sessions) {
    const list = students.get(session.student);
    if (list) list.push(session);
    else students.set(session.student, [session]);
  }
  return [...students].sort(([one], [other]) => one.localeCompare(other, "en"));
}

function readDraw(permitted: string | undefined, drawn: string | undefined): StartDraw | undefined {
  if (permitted === undefined && drawn === undefined) return undefined;
  if (permitted === undefined || drawn === undefined) {
    throw new CommandError("--drawn-from and --drawn go together; see cli analyse --help.");
  }
  const permittedDays = permitted.split(",").map((day) => readDay("drawn-from", day.trim()));
  const day = readDay("drawn", drawn.trim());
  if (!permittedDays.includes(day)) {
    throw new CommandError(`--drawn: ${drawn} is not among the days of --drawn-from.`);
  }
  return { permittedDays, day };
}

/** A start that was moved from the day drawn was chosen, and the test does not hold for it. */
function refuseMoved(student: string, sessions: readonly PhasedSession[], { day }: StartDraw) {
  const before = sessions.findIndex(({ phaseKind }) => phaseKind === "baseline");
  if (before < 0) return;
  const start = sessions.findIndex(
    ({ phaseKind }, at) => at > before && phaseKind !== null && phaseKind !== "baseline",
  );
  const first = sessions[start];
  if (first === undefined) return;
  const refuse = (what: string) =>
    new CommandError(
      `--drawn: ${what}, and the day drawn is ${dayText(day)}; a start that was moved cannot be tested.`,
    );
  if (dayNumber(first.day) < day) throw refuse(`the program of ${student} begins on ${first.day}`);
  const late = sessions
    .slice(0, start)
    .find((session) => session.phaseKind === "baseline" && dayNumber(session.day) >= day);
  if (late !== undefined) throw refuse(`${student} has a baseline session on ${late.day}`);
}

function readDay(option: string, text: string): number {
  try {
    return dayNumber(text);
  } catch {
    throw new CommandError(`--${option}: "${text}" is not a day; write it as 2026-03-09.`);
  }
}

type StudentPage = { readonly student: string; readonly work: WorkDone | null } & Omit<
  ReturnType<typeof groupStatistics>,
  "reading" | "present" | "betweenCase"
> & {
    readonly reading: Reading;
    readonly flags?: readonly Flag[];
    readonly betweenCase?: ReturnType<typeof groupStatistics>["betweenCase"];
  };

type Reading =
  | ReturnType<typeof groupStatistics>["reading"]
  | ReturnType<typeof studentStatistics>["reading"];

function page(of: StudentPage): string {
  const { student, self, observer, acrossSources, work } = of;
  const lines = [student, ...readingLines(of.reading), ...flagLines(of.flags ?? [])];
  if (observer !== null) lines.push(...sourceLines("Observed", observer));
  if (self !== null) lines.push(...sourceLines("Self-recorded", self));
  if (acrossSources !== null)
    lines.push(
      "  Observed phases against self-recorded ones; part of a change may be the recorder's",
      ...comparisonLines(acrossSources.phases),
    );
  if (of.betweenCase?.kind === "enough") {
    const { g, interval, students } = of.betweenCase;
    lines.push(
      `  Between-case effect of ${students} students: g = ${g.toFixed(2)} (${interval.lower.toFixed(2)} to ${interval.upper.toFixed(2)})`,
    );
  }
  if (work !== null)
    lines.push(`  Work: ${work.completed} of ${work.assigned} items completed${rightText(work)}`);
  return lines.join("\n");
}

/** What may be said first, each with its 95 % interval and how firmly. */
function readingLines({ phase, source, trend, week, phases }: Reading): string[] {
  const by = source === "self" ? "self-recorded" : "observed";
  const where = phase === null ? "all sessions" : `the present phase, ${phase.label}`;
  const lines: string[] = [];
  if (trend.kind === "enough")
    lines.push(
      `  Trend in ${where} (${by}): ${changeText(trend.pointsPerWeek, trend, "points a week")}`,
    );
  if (week.kind === "enough")
    lines.push(
      `  Week of ${week.week} against week of ${week.before}: ${changeText(week.points, week)}`,
    );
  for (const each of phases) {
    if (each.kind === "not-enough") continue;
    lines.push(
      `  ${each.from} to ${each.to}: ${changeText(each.points, each)}; wanted ${each.wanted}: ${words(each.outcome)}`,
    );
  }
  return lines;
}

function changeText(change: number, { interval, evidence }: Stated, unit = "points"): string {
  const { lower, upper } = interval;
  return `${signed(change)} ${unit} (${signed(lower)} to ${signed(upper)}), ${words(evidence)}`;
}

/** With one decimal and its sign. */
const signed = (value: number): string =>
  `${value >= 0.05 ? "+" : ""}${(Math.abs(value) < 0.05 ? 0 : value).toFixed(1)}`;

const flagLines = (flags: readonly Flag[]): string[] =>
  flags.some(({ kind }) => kind === "rate-falling")
    ? ["  A clear fall, there for two weeks running."]
    : [];

const rightText = ({ correct, lookedAt }: WorkDone): string =>
  lookedAt === 0 ? "" : `, ${correct} of ${lookedAt} correct`;

type SourceStatistics = NonNullable<StudentPage["self"]>;

function sourceLines(title: string, statistics: SourceStatistics): string[] {
  const { overall, sessions, phaseRates, phases } = statistics;
  const held = sessions.length === 1 ? "1 session" : `${sessions.length} sessions`;
  const lines = [`  ${title}: ${held}, ${rateText(overall)}`];
  for (const phase of phaseRates) {
    if (phase.pooled.kind === "enough") lines.push(`    ${phase.label}: ${rateText(phase.pooled)}`);
  }
  return [...lines, ...comparisonLines(phases)];
}

/** The randomization test, or why there is none; nothing without a draw. */
function randomizationLines(test: SourceStatistics["phases"]["randomization"]): string[] {
  if (test === null) return [];
  if (test.kind === "not-computable")
    return [`    Randomization test: not computable (${words(test.reason)})`];
  return [
    `    Randomization test: p = ${test.probability.toFixed(3)} over ${test.permitted} days that could have been drawn`,
  ];
}

function comparisonLines({
  phases,
  comparisons,
  randomization,
  caution,
}: SourceStatistics["phases"]): string[] {
  const lines = comparisons.map((comparison) => {
    const labels = [comparison.from, comparison.to].map((place) => phases[place]?.label ?? "");
    return `    ${labels.join(" to ")}: ${comparisonText(comparison)}`;
  });
  lines.push(...randomizationLines(randomization));
  if (caution === "one-change-cannot-show-cause")
    lines.push("    One baseline and one program phase cannot by themselves show cause.");
  if (caution === "fewer-than-three-changes")
    lines.push("    Fewer than three changes: not enough to show cause.");
  return lines;
}

function comparisonText({ levelChange, nap, ...more }: PhaseComparison): string {
  const parts: string[] = [];
  if (levelChange !== null) parts.push(`level ${points(levelChange)} points`);
  if (nap.kind === "computed")
    parts.push(
      `NAP ${nap.value.toFixed(2)} (${nap.interval.lower.toFixed(2)} to ${nap.interval.upper.toFixed(2)})`,
    );
  const { dualCriterion } = more.downward ?? more;
  if (dualCriterion.kind === "computed")
    parts.push(`conservative dual criterion: ${words(dualCriterion.conservative.decision)}`);
  return parts.join(", ");
}

function rateText(pooled: SourceStatistics["overall"]): string {
  if (pooled.kind === "not-enough") return "no marks";
  const { rate, interval } = pooled;
  return `${percent(rate)} on task (${percent(interval.lower)} to ${percent(interval.upper)})`;
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

function points(change: number): string {
  const rounded = Math.round(change * 100);
  return rounded > 0 ? `+${rounded}` : String(rounded);
}

/** A code such as `cannot-tell` as it is said. */
const words = (code: string): string => code.replaceAll("-", " ");
