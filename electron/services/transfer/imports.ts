import type { Imported, ImportRow } from "../../../shared/api/transfer.ts";
import { mostCues } from "../../../shared/plan/most-cues.ts";
import { firstPlan } from "../../../shared/plan/plan.ts";
import { nameKey } from "../../../shared/roster/name-key.ts";
import { differing } from "../../../shared/transfer/differing.ts";
import { earliestMs } from "../../../shared/transfer/import-limits.ts";
import { type Moment, parseMoment } from "../../../shared/transfer/moment.ts";
import type { PhasedDay } from "../../../shared/transfer/phase-starts.ts";
import { parsePhase } from "../../../shared/transfer/phase-text.ts";
import type { Store } from "../../store/store.ts";
import type { DesktopClock } from "../base/clock.ts";
import { givenWords } from "../base/given-words.ts";
import { Refusal } from "../base/refusal.ts";
import { bringIn } from "../live/log-door.ts";
import { importPhases } from "./import-phases.ts";
import { refuseCrowd, refuseRows } from "./import-refusals.ts";
import { type EarlierRecord, earlierKind, earlierSession } from "./imported-session.ts";

/** Some seconds of writing; five years of a class as totals need a quarter of it. */
const mostEvents = 200_000;

/** Under which key a row's student is found. */
const keyOf = ({ student }: ImportRow): string => nameKey(student.trim());

interface TimedRow {
  readonly row: ImportRow;
  readonly at: Moment;
  /** Place among the rows, from 1. */
  readonly place: number;
}

/**
 * Brings past sessions into a group, all or none. Rows that began at the same moment are one session.
 * Students are found by name, whatever its capitals; who is not there is added. Phases that the rows
 * name are added where they are not there yet; see `phaseStarts`.
 *
 * @throws Refusal that names the rows by their place, from 1
 */
export function importSessions(
  store: Store,
  groupId: string,
  rows: readonly ImportRow[],
  clock: Pick<DesktopClock, "wallMs">,
): Omit<Imported, "importedMs"> {
  const nowMs = clock.wallMs();
  const timed = readRows(rows, nowMs);
  refuseMixed(timed);
  const known = new Map(store.students.listAll(groupId).map(({ id, name }) => [nameKey(name), id]));
  refuseRepeated(store, groupId, timed, known);
  const newNames = namesToAdd(timed, known);
  refuseCrowd(known.size + newNames.length);
  const sessions = [...Map.groupBy(timed, ({ at }) => at.ms).entries()];
  refuseLong(sessions.map(([, together]) => together));
  return store.transaction(() => {
    const importId = store.imports.create(groupId, nowMs);
    for (const { id, name } of store.students.add(groupId, newNames, nowMs, importId)) {
      known.set(nameKey(name), id);
    }
    for (const [, together] of sessions.sort(([one], [other]) => one - other)) {
      writeSession(store, groupId, importId, together, known);
    }
    const phasesAdded = importPhases(store, groupId, importId, daysOf(timed, known), nowMs);
    return { importId, sessions: sessions.length, studentsAdded: newNames.length, phasesAdded };
  });
}

function writeSession(
  store: Store,
  groupId: string,
  importId: string,
  together: readonly TimedRow[],
  idOf: ReadonlyMap<string, string>,
): void {
  const records = together.map(({ row }) => toRecord(row, idOf));
  const kind = earlierKind(records);
  const at = together[0]?.at;
  if (at === undefined) throw new Error("A session needs at least one row");
  const session = store.sessions.create(
    {
      groupId,
      kind,
      planName: givenWords[store.settings.get().language].importedPlan,
      // The file does not say how it was cued; what every group begins with stands in for it.
      plan: {
        ...firstPlan,
        recording: "paper",
        cueing: kind === "baseline" ? "teacher" : firstPlan.cueing,
        subject: together.find(({ row }) => row.subject !== "")?.row.subject ?? "",
      },
      seed: `import ${at.ms}`,
      startedMs: at.ms,
      offsetMinutes: at.offsetMinutes,
      day: at.day,
    },
    importId,
  );
  const events = earlierSession(records, [...idOf.values()]);
  const timed = events.map((body) => ({ atMs: 0, body }));
  bringIn(store.log, session.id, timed, session);
}

function toRecord(row: ImportRow, idOf: ReadonlyMap<string, string>): EarlierRecord {
  const studentId = idOf.get(keyOf(row));
  if (studentId === undefined) throw new Error("A row's student was not added");
  const { source, on, off, missing, work } = row;
  return { studentId, source, on, off, missing, work };
}

function readRows(rows: readonly ImportRow[], nowMs: number): TimedRow[] {
  const bad: number[] = [];
  const timed: TimedRow[] = [];
  rows.forEach((row, index) => {
    const at = parseMoment(row.startedAt);
    const marks = marksOf(row);
    const isGood =
      at !== undefined &&
      at.ms >= earliestMs &&
      at.ms <= nowMs &&
      marks >= 1 &&
      marks <= mostCues &&
      (row.phase === "" || parsePhase(row.phase) !== undefined) &&
      (row.work?.correct ?? 0) <= (row.work?.completed ?? 0);
    if (isGood) timed.push({ row, at, place: index + 1 });
    else bad.push(index + 1);
  });
  refuseRows(
    "import-bad-rows",
    bad,
    "have a time, phase or work that cannot be, or no marks, or too many",
  );
  return timed;
}

/** A session has one subject, and a student one phase a day. */
function refuseMixed(timed: readonly TimedRow[]): void {
  const mixed = timed.filter(
    differing(
      ({ at }) => String(at.ms),
      ({ row }) => row.subject,
    ),
  );
  const changing = timed.filter(
    differing(
      ({ row, at }) => `${at.day} ${keyOf(row)}`,
      ({ row }) => row.phase.toLowerCase(),
    ),
  );
  const places = new Set([...mixed, ...changing].map(({ place }) => place));
  refuseRows(
    "import-bad-rows",
    [...places].sort((one, other) => one - other),
    "name a second subject in one session, or a second phase on one day",
  );
}

const daysOf = (timed: readonly TimedRow[], idOf: ReadonlyMap<string, string>): PhasedDay[] =>
  timed.map(({ row, at }) => ({
    student: idOf.get(keyOf(row)) ?? "",
    day: at.day,
    phase: parsePhase(row.phase) ?? null,
  }));

function refuseRepeated(
  store: Store,
  groupId: string,
  timed: readonly TimedRow[],
  idOf: ReadonlyMap<string, string>,
): void {
  const recordOf = (who: string, ms: number, source: string) => JSON.stringify([who, ms, source]);
  const there = new Set(
    store.imports
      .records(groupId)
      .map(({ studentId, startedMs, source }) => recordOf(studentId, startedMs, source)),
  );
  const repeated = timed.filter(({ row, at }) => {
    const name = keyOf(row);
    const key = recordOf(idOf.get(name) ?? name, at.ms, row.source);
    const isThere = there.has(key);
    there.add(key);
    return isThere;
  });
  refuseRows(
    "import-repeated-rows",
    repeated.map(({ place }) => place),
    "repeat a student, time and source that are there already",
  );
}

/** Names that nobody has yet, each once, as they are first written. */
function namesToAdd(timed: readonly TimedRow[], idOf: ReadonlyMap<string, string>): string[] {
  const names = new Map<string, string>();
  for (const { row } of timed) {
    const key = keyOf(row);
    if (!idOf.has(key) && !names.has(key)) names.set(key, row.student.trim());
  }
  return [...names.values()];
}

/** Asked before anything is written: a file of the largest counts would take hours. */
function refuseLong(sessions: readonly (readonly TimedRow[])[]): void {
  let events = 0;
  for (const together of sessions) {
    const cues = Math.max(...together.map(({ row }) => marksOf(row)));
    const observed = together.filter(({ row }) => row.source === "observer");
    // A total and the work of each.
    events += cues + 2 * together.length;
    for (const { row } of observed) events += marksOf(row);
  }
  if (events <= mostEvents) return;
  throw new Refusal(
    "import-too-large",
    "These are too many marks for one import. Bring in one school year at a time.",
    { what: "marks", have: events, most: mostEvents },
  );
}

const marksOf = ({ on, off, missing }: ImportRow): number => on + off + missing;
