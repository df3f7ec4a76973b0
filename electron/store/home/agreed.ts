import type Database from "better-sqlite3";
import {
  type AgreedLine,
  type AgreedPage,
  type AgreedSaid,
  agreedPageSchema,
} from "../../../shared/home/agreed.ts";

/** What holds for a student's papers. */
export type PaperChange = Partial<Pick<AgreedPage, "reviewOn" | "language" | "cardStopped">>;

interface PaperRow {
  readonly reviewOn: string | null;
  readonly language: string | null;
  readonly cardStopped: number;
}

/** What was agreed about students: answers are only ever added, and the newest of a line stands. */
export function agreedRepository(bare: Database.Database) {
  const insert = bare.prepare<[AgreedSaid & { studentId: string; wallMs: number }]>(
    `INSERT INTO agreed_answer (student_id, line, answer, day, who, wall_ms)
     VALUES (@studentId, @line, @answer, @day, @who, @wallMs)`,
  );
  const saidOf = bare.prepare<[string], AgreedSaid>(
    "SELECT line, answer, day, who FROM agreed_answer WHERE student_id = ? ORDER BY number",
  );
  const paperOf = bare.prepare<[string], PaperRow>(
    `SELECT review_on AS reviewOn, language, card_stopped AS cardStopped
     FROM student_paper WHERE student_id = ?`,
  );
  const savePaper = bare.prepare<[PaperRow & { studentId: string }]>(
    `INSERT INTO student_paper (student_id, review_on, language, card_stopped)
     VALUES (@studentId, @reviewOn, @language, @cardStopped)
     ON CONFLICT (student_id) DO UPDATE SET review_on = excluded.review_on,
       language = excluded.language, card_stopped = excluded.card_stopped`,
  );
  const studentsOf = bare
    .prepare<[string], string>(
      "SELECT id FROM student WHERE group_id = ? AND archived_ms IS NULL ORDER BY position, id",
    )
    .pluck();
  const noes = (members: string) =>
    bare
      .prepare<[{ groupId: string; line: AgreedLine; atMs: number }], string>(
        `SELECT student_id FROM agreed_answer AS said JOIN student ON student.id = student_id
         WHERE (${members}) AND line = @line AND answer = 'no' AND wall_ms <= @atMs
           AND NOT EXISTS (
             SELECT 1 FROM agreed_answer AS later WHERE later.student_id = said.student_id
               AND later.line = @line AND later.number > said.number AND later.wall_ms <= @atMs)`,
      )
      .pluck();
  const noesNow = noes("group_id = @groupId");
  const noesOnce = noes(
    "group_id = @groupId OR student.number IN (SELECT student_number FROM stay WHERE group_id = @groupId)",
  );

  function page(studentId: string): AgreedPage {
    const paper = paperOf.get(studentId);
    return agreedPageSchema.parse({
      studentId,
      said: saidOf.all(studentId),
      reviewOn: paper?.reviewOn ?? null,
      language: paper?.language ?? null,
      cardStopped: paper?.cardStopped === 1,
    });
  }

  return {
    page,

    /** The pages of a group's students in use, in their order. */
    ofGroup: (groupId: string): AgreedPage[] => studentsOf.all(groupId).map(page),

    /** Of whose line a no stands now, archived students among them. */
    saidNo: (groupId: string, line: AgreedLine): ReadonlySet<string> =>
      new Set(noesNow.all({ groupId, line, atMs: Number.MAX_SAFE_INTEGER })),

    /** Of whose line a no stood at a wall-clock time; who has left the group since is among them. */
    hadSaidNo: (groupId: string, line: AgreedLine, atMs: number): ReadonlySet<string> =>
      new Set(noesOnce.all({ groupId, line, atMs: Math.round(atMs) })),

    /** @param wallMs when it was written down */
    add(studentId: string, said: AgreedSaid, wallMs: number): void {
      insert.run({ ...said, studentId, wallMs: Math.round(wallMs) });
    },

    changePaper(studentId: string, change: PaperChange): void {
      const { reviewOn, language, cardStopped } = { ...page(studentId), ...change };
      savePaper.run({ studentId, reviewOn, language, cardStopped: cardStopped ? 1 : 0 });
    },
  };
}
export type Agreed = ReturnType<typeof agreedRepository>;
