import type { AdviceDecision } from "../../../shared/api/advice.ts";
import type { StudentRecord } from "../../../shared/api/transfer.ts";
import type { SessionEvent } from "../../../shared/session/event.ts";
import type { TeamWish } from "../../../shared/teams/kept.ts";
import type { LedgerLine } from "../../../shared/transfer/ledger-line.ts";
import { withoutName } from "../../store/erasing/without-name.ts";
import type { Store } from "../../store/store.ts";
import { Missing } from "../base/refusal.ts";
import type { WallClock } from "../base/wall-clock.ts";
import { papersOf, papersWith } from "../home/papers.ts";
import { ledgerLines } from "../points/ledger-lines.ts";
import { programOf } from "../program.ts";

/** A piece of a record ends with the session that fills so many events: some 1.5 MB of the longest message. */
const eventsInPiece = 5_000;

/**
 * Everything kept about one student, some sessions at a time. Names of other students of the group are
 * blanked in notes and labels, because the record may leave the school.
 *
 * @param from how many sessions earlier pieces held
 * @returns `next` is where to go on, or null after the last piece
 */
export function studentRecord(
  store: Store,
  studentId: string,
  from: number,
  clock: WallClock,
): { record: StudentRecord; next: number | null } {
  const student = store.students.get(studentId);
  const group = student === null ? null : store.groups.get(student.groupId);
  if (student === null || group === null) throw new Missing("student");
  const groupIds = new Set([
    ...store.students.stays(studentId).map((stay) => stay.groupId),
    group.id,
  ]);
  const inGroups = <Kept>(keptIn: (groupId: string) => readonly Kept[]): Kept[] =>
    [...groupIds].flatMap(keptIn);
  const others = inGroups(store.students.listAll).flatMap(({ id, name }) =>
    id === studentId ? [] : [name],
  );
  const ids = store.sessions.idsOf(studentId);
  const sessions: StudentRecord["sessions"] = [];
  let events = 0;
  while (events < eventsInPiece) {
    const session = store.sessions.get(ids[from + sessions.length] ?? "");
    if (session === null) break;
    const own = store.log.readOf(session.id, studentId).map((event) => anonymous(event, others));
    const planName = blanked(session.planName, others);
    sessions.push({ session: { ...session, planName }, events: own });
    events += own.length;
  }
  const next = from + sessions.length;
  const phases = inGroups(store.phases.list).map((phase) => ({
    ...phase,
    label: blanked(phase.label, others),
  }));
  const { ownGoal, savingFor } = store.wishes.ofStudent(studentId);
  const record: StudentRecord = {
    form: "pebblechime-student-record",
    version: 5,
    exportedMs: clock.wallMs(),
    student,
    group,
    phases: phases.filter((phase) => phase.studentId === studentId),
    groupPhases: phases.filter((phase) => phase.studentId === null && phase.groupId === group.id),
    program: programOf(store, group.id, clock),
    plans: store.plans
      .list(group.id)
      .map((plan) => ({ ...plan, name: blanked(plan.name, others) })),
    daysOff: store.daysOff.list().map((off) => ({ ...off, label: blanked(off.label, others) })),
    decisions: inGroups(store.decisions.list)
      .filter((decision) => isAbout(decision, studentId, group.id))
      .map((decision) => ({ ...decision, note: blanked(decision.note, others) })),
    sessions,
    ledger: ledgerOf(store, studentId, { ids, from, next }).map((line) => ({
      ...line,
      privilege: line.privilege === null ? null : blanked(line.privilege, others),
    })),
    ownGoal,
    savingFor: savingFor === null ? null : blanked(savingFor, others),
    together: togetherOf(store, inGroups(store.teams.wishes), studentId, others),
    papers: papersWith(papersOf(store, studentId), (text) => blanked(text, others)),
  };
  return { record, next: next < ids.length ? next : null };
}

/** The student's own, whichever group it was made in, and those for the whole of the present group. */
const isAbout = (
  { studentId, groupId }: AdviceDecision,
  whom: string,
  presentGroupId: string,
): boolean => studentId === whom || (studentId === null && groupId === presentGroupId);

/** The student's own part in teams and pairs, without anybody else's name. */
function togetherOf(
  { teams, pairLessons }: Store,
  wishes: readonly TeamWish[],
  studentId: string,
  others: readonly string[],
): StudentRecord["together"] {
  return {
    // Whoever moved to another group was in teams of the first one.
    teams: teams.placesOfStudent(studentId).map(({ groupId: of, number, startsOn, team }) => ({
      round: number,
      startsOn,
      team,
      name: blanked(teams.names(of)[team - 1] ?? "", others),
    })),
    wishes: wishes
      .filter(({ studentIds }) => studentIds.includes(studentId))
      .map(({ kind, studentIds }) => ({ kind, others: studentIds.length - 1 })),
    pairs: pairLessons.ofStudent(studentId),
  };
}

interface Piece {
  /** Of all sessions of the record, in their order. */
  readonly ids: readonly string[];
  /** The place of the piece's first session, and of the first one after it. */
  readonly from: number;
  readonly next: number;
}

/** What the sessions of a piece paid; with the last piece all that none of the sessions paid. */
function ledgerOf(
  { ledger, privileges }: Store,
  studentId: string,
  { ids, from, next }: Piece,
): LedgerLine[] {
  const placeOf = new Map(ids.map((id, place) => [id, place]));
  const entries = ledger.allOf(studentId).filter(({ source, sourceKey }) => {
    const place = source === "session" ? placeOf.get(sourceKey) : undefined;
    return place === undefined ? next >= ids.length : from <= place && place < next;
  });
  return ledgerLines(entries, privileges);
}

function anonymous({ stamp, body }: SessionEvent, names: readonly string[]): SessionEvent {
  if (body.kind === "note") return { stamp, body: { ...body, text: blanked(body.text, names) } };
  if (body.kind === "left-out") {
    return { stamp, body: { ...body, reason: blanked(body.reason, names) } };
  }
  if (body.kind !== "interruption") return { stamp, body };
  return { stamp, body: { ...body, note: blanked(body.note, names) } };
}

const blanked = (text: string, names: readonly string[]): string =>
  names.reduce((blanking, name) => withoutName(blanking, name), text);
