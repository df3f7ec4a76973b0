import { eq } from "drizzle-orm";
import type { OwnGoal } from "../../shared/roster/own-goal.ts";
import type { Connection } from "./connection.ts";
import { lastSpending } from "./tables.ts";

/** What is wished of points: own goals, what is saved for, and until when a group spends what is left. */
export function wishRepository({ bare, typed }: Connection) {
  const goals = bare.prepare<[string], OwnGoal>(
    `SELECT student.id AS studentId, share FROM own_goal
     JOIN student ON student.number = own_goal.student_number
     WHERE group_id = ? AND archived_ms IS NULL ORDER BY position, student.number`,
  );
  const setGoal = bare.prepare<[string, number]>(
    `INSERT INTO own_goal (student_number, share)
     VALUES ((SELECT number FROM student WHERE id = ?), ?)
     ON CONFLICT (student_number) DO UPDATE SET share = excluded.share`,
  );
  const unsetGoal = bare.prepare<[string]>(
    "DELETE FROM own_goal WHERE student_number = (SELECT number FROM student WHERE id = ?)",
  );
  const savings = bare.prepare<[string], SavingFor>(
    `SELECT student.id AS studentId, privilege_id AS privilegeId FROM saving_for
     JOIN student ON student.number = saving_for.student_number
     JOIN privilege ON privilege.id = privilege_id AND privilege.archived_ms IS NULL
     WHERE student.group_id = ?`,
  );
  const setSaving = bare.prepare<[string, string]>(
    `INSERT INTO saving_for (student_number, privilege_id)
     VALUES ((SELECT number FROM student WHERE id = ?), ?)
     ON CONFLICT (student_number) DO UPDATE SET privilege_id = excluded.privilege_id`,
  );
  const unsetSaving = bare.prepare<[string]>(
    "DELETE FROM saving_for WHERE student_number = (SELECT number FROM student WHERE id = ?)",
  );

  const own = bare.prepare<[string], StudentWishes>(
    `SELECT share AS ownGoal, privilege.name AS savingFor FROM student
     LEFT JOIN own_goal ON own_goal.student_number = student.number
     LEFT JOIN saving_for ON saving_for.student_number = student.number
     LEFT JOIN privilege ON privilege.id = privilege_id
     WHERE student.id = ?`,
  );

  return {
    /** Own goals of a group's students; who has none has the plan's. */
    ownGoals: (groupId: string): OwnGoal[] => goals.all(groupId),

    /** One student's, archived or not; null for none. */
    ofStudent: (studentId: string): StudentWishes =>
      own.get(studentId) ?? { ownGoal: null, savingFor: null },

    /** Null: the plan's goal again. */
    saveOwnGoal(studentId: string, share: number | null): void {
      if (share === null) unsetGoal.run(studentId);
      else setGoal.run(studentId, share);
    },

    /** What each student saves for, of what is still offered. */
    savingFor: (groupId: string): SavingFor[] => savings.all(groupId),

    saveSavingFor(studentId: string, privilegeId: string | null): void {
      if (privilegeId === null) unsetSaving.run(studentId);
      else setSaving.run(studentId, privilegeId);
    },

    /** The last day on which a group spends what is left; null where nothing of the kind was announced. */
    spendUntil: (groupId: string): string | null =>
      typed.select().from(lastSpending).where(eq(lastSpending.groupId, groupId)).get()?.until ??
      null,

    saveSpendUntil(groupId: string, until: string | null): void {
      if (until === null) {
        typed.delete(lastSpending).where(eq(lastSpending.groupId, groupId)).run();
        return;
      }
      typed
        .insert(lastSpending)
        .values({ groupId, until })
        .onConflictDoUpdate({ target: lastSpending.groupId, set: { until } })
        .run();
    },
  };
}
export type Wishes = ReturnType<typeof wishRepository>;

/** A student's own goal as an on-task share, and the name of what is saved for. */
interface StudentWishes {
  readonly ownGoal: number | null;
  readonly savingFor: string | null;
}

interface SavingFor {
  readonly studentId: string;
  readonly privilegeId: string;
}
