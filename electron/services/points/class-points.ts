import type { PointsBoard, TimerLeft } from "../../../shared/api/points.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { Handlers } from "../base/handlers.ts";
import { Missing, Refusal } from "../base/refusal.ts";
import { todayOf, type WallClock } from "../base/wall-clock.ts";
import { earnsPoints } from "./earns-points.ts";

/** A timer that is over stays in sight for so long, in ms. */
const overForMs = 60_000;

type ClassPoints = Pick<
  Handlers["points"],
  "board" | "ownPurse" | "saveFor" | "startTimer" | "stopTimer"
>;

/**
 * What of points may stand before the class: one student's own purse at a time, asked for with the own
 * picture, and timers that name no student.
 */
export function classPoints(store: Store, changes: Changes, clock: WallClock): ClassPoints {
  const { students, privileges, ledger, wishes, agreed } = store;

  const today = () => todayOf(clock);

  /** Who wants no points, or takes no part at all, has no place here, and no empty one either. */
  const outOfSight = (groupId: string): ReadonlySet<string> =>
    new Set([...agreed.saidNo(groupId, "points"), ...agreed.saidNo(groupId, "cued")]);

  function board(): PointsBoard | null {
    const groupId = presentGroup(store, today());
    if (groupId === null || !isShown(store, groupId, today())) return null;
    const out = outOfSight(groupId);
    return {
      groupId,
      students: students
        .list(groupId, false)
        .filter(({ id }) => !out.has(id))
        .map(({ id, name, picture }) => ({ id, name, picture })),
      timers: timersLeft(store, groupId, clock.wallMs()),
    };
  }

  function studentOf(studentId: string) {
    const student = students.get(studentId);
    if (student === null || student.archived) throw new Missing("student");
    const isOut = outOfSight(student.groupId).has(studentId);
    if (isOut || !isShown(store, student.groupId, today())) {
      throw new Refusal("points-off", "This group earns no points.");
    }
    return student;
  }

  return {
    board,

    ownPurse({ studentId }) {
      const { groupId } = studentOf(studentId);
      const purse = ledger.purses(groupId, today()).find((each) => each.studentId === studentId);
      if (purse === undefined) throw new Missing("student");
      const offered = privileges
        .list(groupId)
        .filter(({ notFor }) => !notFor.includes(studentId))
        .map(({ id, name, picture, price }) => ({ id, name, picture, price }))
        .sort((one, other) => one.price - other.price);
      const saving = wishes.savingFor(groupId).find((each) => each.studentId === studentId);
      const isOffered = offered.some(({ id }) => id === saving?.privilegeId);
      return {
        ...purse,
        privileges: offered,
        savingFor: isOffered ? (saving?.privilegeId ?? null) : null,
      };
    },

    saveFor({ studentId, privilegeId }) {
      const { groupId } = studentOf(studentId);
      const privilege = privilegeId === null ? null : privileges.get(privilegeId);
      if (privilegeId !== null && privilege?.groupId !== groupId) throw new Missing("privilege");
      wishes.saveSavingFor(studentId, privilegeId);
      changes.publish("points");
      return {};
    },

    startTimer({ privilegeId }) {
      const privilege = privileges.get(privilegeId);
      if (privilege === null || privilege.minutes === null) throw new Missing("privilege");
      const { groupId, name, minutes } = privilege;
      const wallMs = clock.wallMs();
      privileges.startTimer({ groupId, name, minutes }, wallMs, wallMs - overForMs);
      changes.publish("points");
      return {};
    },

    stopTimer({ id }) {
      privileges.stopTimer(id);
      changes.publish("points");
      return {};
    },
  };
}

/** The group that sits: of the open session, or of the newest one of today. */
function presentGroup({ log, sessions }: Pick<Store, "log" | "sessions">, day: string) {
  const openId = log.openSessionId();
  const open = openId === null ? null : sessions.get(openId);
  if (open !== null) return open.groupId;
  const [newest] = sessions.list(null, 1);
  return newest?.day === day ? newest.groupId : null;
}

/** Whether a plan of the group earns, or what is left is being spent, and points are not switched off. */
function isShown(store: Store, groupId: string, day: string): boolean {
  if (earnsPoints(store, groupId)) return true;
  return store.settings.get().points && spendingUntil(store, groupId, day) !== null;
}

/** The last day on which a group spends what is left; null once it is over. */
export function spendingUntil(
  { wishes }: Pick<Store, "wishes">,
  groupId: string,
  day: string,
): string | null {
  const until = wishes.spendUntil(groupId);
  return until !== null && until >= day ? until : null;
}

/** The timers of a group that run, and those that are over just now. */
export function timersLeft(
  { privileges }: Pick<Store, "privileges">,
  groupId: string,
  wallMs: number,
): TimerLeft[] {
  return privileges
    .timers(groupId, wallMs - overForMs)
    .map(({ endsMs, ...timer }) => ({ ...timer, leftMs: Math.max(0, endsMs - wallMs) }));
}
