import type Database from "better-sqlite3";
import type { FamilyWords } from "../../../shared/home/family-words.ts";

/** What adults wrote to families: one text a student, the newest. */
export function familyWordsRepository(bare: Database.Database) {
  const ofGroup = bare.prepare<[string], FamilyWords & { day: string }>(
    `SELECT student_id AS studentId, words, day FROM family_words
     JOIN student ON student.id = student_id
     WHERE group_id = ? AND archived_ms IS NULL ORDER BY position, student.id`,
  );
  const put = bare.prepare<[{ studentId: string; words: string; day: string }]>(
    `INSERT INTO family_words (student_id, words, day) VALUES (@studentId, @words, @day)
     ON CONFLICT (student_id) DO UPDATE SET words = excluded.words, day = excluded.day`,
  );
  const remove = bare.prepare<[string]>("DELETE FROM family_words WHERE student_id = ?");

  return {
    /** Of the students in use, in their order. */
    ofGroup: (groupId: string): FamilyWords[] => ofGroup.all(groupId),

    /** @param words empty to take back what was written */
    save(studentId: string, words: string, day: string): void {
      if (words === "") remove.run(studentId);
      else put.run({ studentId, words, day });
    },
  };
}
export type FamilyWordsRepository = ReturnType<typeof familyWordsRepository>;
