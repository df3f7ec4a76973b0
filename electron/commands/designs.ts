import { z } from "zod";
import {
  alternationTest,
  type PlacedPoint,
} from "../../shared/analysis/designs/alternation-test.ts";
import {
  alternationStandard,
  withdrawalStandard,
} from "../../shared/analysis/designs/design-standard.ts";
import { multipleBaselineStanding } from "../../shared/analysis/designs/multiple-baseline-standard.ts";
import { staggeredTest } from "../../shared/analysis/designs/staggered-test.ts";
import { withdrawalTest } from "../../shared/analysis/designs/withdrawal-test.ts";
import type { PointsStandard } from "../../shared/analysis/phases/points-standard.ts";
import type { DayPoint } from "../../shared/analysis/phases/trend.ts";
import { dayNumber } from "../../shared/calendar/calendar.ts";
import { nameKey } from "../../shared/roster/name-key.ts";
import { type Command, CommandError } from "./command.ts";
import { readFileOptions } from "./read-options.ts";
import { readText } from "./read-text.ts";
import { type PhasedSession, readSessions } from "./session-rows.ts";

const help = `Usage: cli designs FILE --draw DRAW [options]

The exact randomization test of a design that was drawn: staggered starts, a withdrawal, or two
alternating conditions, and how it compares with the published standard for such a design (What Works
Clearinghouse 2022, its counts cited from memory).

FILE is CSV as cli analyse reads it; "-" reads standard input. DRAW is a JSON file that says what was drawn:

  {"design": "staggered", "starts": [
    {"student": "Ana", "drawn": "2026-09-21", "from": ["2026-09-21", "2026-09-22", ...]}, ...]}
      each student's start, with the days it was drawn from
  {"design": "withdrawal", "student": "Ana", "changes": [
    {"drawn": "2026-09-21", "from": ["2026-09-21", ...]}, ...]}
      the days on which the program began, was taken away, came back ..., in order of time
  {"design": "alternation", "student": "Ana", "order": "ABBAABABBA"}
      one letter a session, in order of time: as many of each, never more than two in a row; the order was
      drawn from all such orders, each as likely. A line without marks keeps its place

Without "student" a withdrawal or an alternation is read from all students together: the rate of a session is
that of all its marks.

  --draw DRAW         what was drawn
  --source SOURCE     self (if left out) or observer: whose marks are read
  --json              {about, design, source, test, standing}, every key explained in "about"
  --help              this text`;

const about = {
  design: "staggered, withdrawal or alternation",
  source: "self or observer: whose marks are read",
  "test.difference":
    "in shares of 1: mean after the start less mean before, averaged over students (staggered); mean under the program less mean without it (withdrawal); mean under A less mean under B (alternation)",
  "test.probability":
    "share of all ways to draw it that give at least this difference: upward (staggered, withdrawal), in either direction (alternation)",
  "test.ways": "in how many ways it could have been drawn; no probability is below one over this",
  "test.reason": "why there is no test, in place of the numbers",
  "standing.standard":
    "meets, with-reservations or does-not-meet: What Works Clearinghouse 2022 by type of design, counts from memory",
} as const;

const drawnDay = z.strictObject({
  drawn: z.iso.date(),
  from: z.array(z.iso.date()).min(1).max(400),
});
const drawSchema = z.discriminatedUnion("design", [
  z.strictObject({
    design: z.literal("staggered"),
    starts: z
      .array(drawnDay.extend({ student: z.string().min(1) }))
      .min(1)
      .max(60),
  }),
  z.strictObject({
    design: z.literal("withdrawal"),
    student: z.string().min(1).optional(),
    changes: z.array(drawnDay).min(1).max(10),
  }),
  z.strictObject({
    design: z.literal("alternation"),
    student: z.string().min(1).optional(),
    order: z
      .string()
      .regex(/^[AB]+$/)
      .min(4)
      .max(24),
  }),
]);
type DesignDraw = z.infer<typeof drawSchema>;
type Source = "self" | "observer";

interface Found {
  readonly test: ReturnType<typeof staggeredTest | typeof withdrawalTest | typeof alternationTest>;
  readonly standing: { readonly standard: PointsStandard };
}

/** The exact tests of designs that were drawn. */
export const designs: Command = {
  summary: "the exact test of staggered starts, a withdrawal, or two alternating conditions",
  help,
  async run(args, output) {
    const { path, values } = readFileOptions("designs", args, {
      draw: { type: "string" },
      source: { type: "string", default: "self" },
      json: { type: "boolean", default: false },
    });
    if (values.draw === undefined) {
      throw new CommandError(
        "--draw is missing: name the file of what was drawn. See cli designs --help.",
      );
    }
    const { source } = values;
    if (source !== "self" && source !== "observer") {
      throw new CommandError(`--source: "${source}" is neither self nor observer.`);
    }
    if (path === "-" && values.draw === "-") {
      throw new CommandError("Only one of the two files can come from standard input.");
    }
    const draw = readDraw(await readText(values.draw), values.draw);
    const rows = readSessions(await readText(path)).filter((row) => row.source === source);
    const found = testOf(draw, rows);
    output.write(
      values.json
        ? `${JSON.stringify({ about, design: draw.design, source, ...found }, null, 2)}\n`
        : `${page(draw.design, source, found)}\n`,
    );
  },
};

function readDraw(text: string, path: string): DesignDraw {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw new CommandError(`${path} is not JSON. See cli designs --help for what it holds.`);
  }
  const read = drawSchema.safeParse(json);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  const where = issue === undefined || issue.path.length === 0 ? "it" : issue.path.join(".");
  throw new CommandError(
    `${path}: ${where} does not fit (${issue?.message ?? "unknown"}). See cli designs --help.`,
  );
}

function testOf(draw: DesignDraw, rows: readonly PhasedSession[]): Found {
  if (draw.design === "staggered") return staggered(draw.starts, rows);
  const own = draw.student === undefined ? rows : rowsOf(rows, draw.student);
  return draw.design === "withdrawal"
    ? withdrawal(draw.changes, own)
    : alternation(draw.order, own);
}

function staggered(
  starts: Extract<DesignDraw, { design: "staggered" }>["starts"],
  rows: readonly PhasedSession[],
): Found {
  const cases = starts.map(({ student, drawn, from }) => ({
    points: pointsOf(rowsOf(rows, student)),
    permittedDays: from.map(dayNumber),
    day: dayNumber(drawn),
  }));
  return {
    test: staggeredTest(cases),
    standing: multipleBaselineStanding(
      cases.map(({ points, day }) => ({
        start: day,
        before: points.filter((point) => point.day < day).length,
        after: points.filter((point) => point.day >= day).length,
      })),
    ),
  };
}

function withdrawal(
  changes: Extract<DesignDraw, { design: "withdrawal" }>["changes"],
  rows: readonly PhasedSession[],
): Found {
  const days = changes.map(({ drawn }) => dayNumber(drawn));
  if (days.some((day, at) => at > 0 && day <= (days[at - 1] ?? 0))) {
    throw new CommandError(
      "The changes of a withdrawal must be in order of time, each on a different day.",
    );
  }
  const points = pointsOf(rows);
  const phases = Array.from(
    { length: days.length + 1 },
    (_, at) =>
      points.filter(({ day }) => days.filter((change) => change <= day).length === at).length,
  );
  return {
    test: withdrawalTest(
      points,
      changes.map(({ drawn, from }) => ({
        permittedDays: from.map(dayNumber),
        day: dayNumber(drawn),
      })),
    ),
    standing: { standard: withdrawalStandard(phases) },
  };
}

function alternation(order: string, rows: readonly PhasedSession[]): Found {
  const held = sessionsIn(rows);
  if (held.length !== order.length) {
    throw new CommandError(
      `The order has ${order.length} letters and the file ${held.length} sessions of this source; each session has one letter.`,
    );
  }
  const points = held.flatMap(({ on, off }, at): PlacedPoint[] =>
    on + off === 0 ? [] : [{ place: at + 1, value: on / (on + off) }],
  );
  const of = (letter: string) => points.filter(({ place }) => order[place - 1] === letter).length;
  return {
    test: alternationTest(order, points),
    standing: { standard: alternationStandard({ A: of("A"), B: of("B") }) },
  };
}

function rowsOf(rows: readonly PhasedSession[], student: string): PhasedSession[] {
  const own = rows.filter((row) => nameKey(row.student) === nameKey(student));
  if (own.length === 0) {
    throw new CommandError(`The file has no session of "${student}" by this source.`);
  }
  return own;
}

interface Marks {
  readonly day: string;
  readonly on: number;
  readonly off: number;
}

/** Sessions in order of time, with the marks of all who were in each added up. */
function sessionsIn(rows: readonly PhasedSession[]): Marks[] {
  const sessions = new Map<number, Marks>();
  for (const { startedAt, day, on, off } of rows) {
    const before = sessions.get(startedAt) ?? { day, on: 0, off: 0 };
    sessions.set(startedAt, { day, on: before.on + on, off: before.off + off });
  }
  return [...sessions].sort(([one], [other]) => one - other).map(([, marks]) => marks);
}

const pointsOf = (rows: readonly PhasedSession[]): DayPoint[] =>
  sessionsIn(rows).flatMap(({ day, on, off }) =>
    on + off === 0 ? [] : { day: dayNumber(day), value: on / (on + off) },
  );

const titles = {
  staggered: "Staggered starts",
  withdrawal: "Withdrawal",
  alternation: "Two alternating conditions",
} as const;

function page(design: DesignDraw["design"], source: Source, { test, standing }: Found): string {
  const title = `${titles[design]} (${source === "self" ? "self-recorded" : "observed"})`;
  const { standard } = standing;
  const standardLine = `  Standard for this type of design (WWC 2022, from memory): ${words(standard)}`;
  if (test.kind === "not-computable") {
    return [
      title,
      `  Randomization test: not computable (${words(test.reason)})`,
      standardLine,
    ].join("\n");
  }
  const points = (100 * test.difference).toFixed(1);
  const way = design === "alternation" ? "two-sided" : "upward";
  return [
    title,
    `  Difference: ${points} points`,
    `  Randomization test: p = ${test.probability.toPrecision(3)}, ${way}, over ${test.ways} ways to draw it`,
    standardLine,
  ].join("\n");
}

/** A code such as `does-not-meet` as it is said. */
const words = (code: string): string => code.replaceAll("-", " ");
