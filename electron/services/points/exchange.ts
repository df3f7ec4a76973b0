import { localDay } from "../../../shared/calendar/local-day.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { undoPressMs } from "../../../shared/session/decide-points.ts";
import type { Store } from "../../store/store.ts";
import { knownStudent } from "../base/known.ts";
import { Missing, Refusal } from "../base/refusal.ts";
import type { WallClock } from "../base/wall-clock.ts";

/** What a student gave points for. */
export interface Purchase {
  readonly studentId: string;
  readonly privilegeId: string;
  /** The price that was shown when it was pressed. */
  readonly price: number;
  /** Made by the page for one press, so that a press sent twice is one press. */
  readonly press: string;
}

/** Exchanges points for a privilege, and takes an exchange back for ten minutes. */
export function exchanges(
  store: Pick<Store, "transaction" | "students" | "privileges" | "ledger">,
  clock: WallClock,
) {
  const { ledger, privileges } = store;

  return {
    /** One press is one exchange. Throws Refusal when it cannot be had. */
    buy({ studentId, privilegeId, price, press }: Purchase): void {
      store.transaction(() => {
        if (ledger.find("exchange", press, studentId) !== null) return;
        const student = knownStudent(store, studentId);
        // Another window may have put this student away while this one still shows the purse.
        if (student.archived) throw new Missing("student");
        const privilege = privileges.get(privilegeId);
        if (privilege === null || privilege.groupId !== student.groupId) {
          throw new Missing("privilege");
        }
        if (privileges.isArchived(privilegeId)) throw new Missing("privilege");
        if (privilege.price !== price) {
          throw new Refusal("privilege-price-moved", "The price has changed meanwhile.", {
            privilege: privilege.name,
            need: privilege.price,
          });
        }
        const [wallMs, offsetMinutes] = [clock.wallMs(), clock.offsetMinutes()];
        const day = localDay(wallMs, offsetMinutes);
        refuseUnfit(student, day, privilege);
        ledger.add({
          studentId,
          source: "exchange",
          sourceKey: press,
          rule: "exchange",
          revision: 1,
          amount: -privilege.price,
          day,
          wallMs,
          offsetMinutes,
          privilegeId,
        });
      });
    },

    /** Gives the points back; a second press changes nothing. Throws Refusal after ten minutes. */
    undo({ studentId, press }: Pick<Purchase, "studentId" | "press">): void {
      store.transaction(() => {
        const entry = ledger.find("exchange", press, studentId);
        if (entry === null) {
          throw new Refusal("points-no-press", "No such exchange was made.");
        }
        if (entry.reversed) return;
        const wallMs = clock.wallMs();
        if (wallMs - entry.wallMs > undoPressMs) {
          throw new Refusal("points-too-late", "This exchange is more than ten minutes old.");
        }
        ledger.add({
          studentId,
          source: "reversal",
          sourceKey: press,
          rule: "exchange",
          revision: 1,
          amount: -entry.amount,
          day: entry.day,
          wallMs,
          offsetMinutes: clock.offsetMinutes(),
          reverses: entry.number,
          privilegeId: entry.privilegeId,
        });
      });
    },
  };

  function refuseUnfit(
    student: Student,
    day: string,
    privilege: NonNullable<ReturnType<typeof privileges.get>>,
  ): void {
    const values = { student: student.name, privilege: privilege.name };
    if (privilege.notFor.includes(student.id)) {
      throw new Refusal("privilege-not-for", "This is not offered to this student.", values);
    }
    const had = ledger.timesHad(privilege.id, day);
    if (privilege.perDay !== null && (had.get(student.id) ?? 0) >= privilege.perDay) {
      throw new Refusal("privilege-taken-today", "This was had today already.", values);
    }
    if (privilege.places !== null && !had.has(student.id) && had.size >= privilege.places) {
      throw new Refusal("privilege-full", "All places for today are taken.", values);
    }
    const have = ledger.balance(student.id);
    if (have < privilege.price) {
      const need = privilege.price;
      throw new Refusal("privilege-too-dear", "There are too few points for this.", {
        ...values,
        have,
        need,
      });
    }
  }
}
