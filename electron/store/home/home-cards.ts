import type Database from "better-sqlite3";
import {
  type HomeCardDay,
  type HomeCardVersion,
  homeCardDaySchema,
  homeCardSchema,
} from "../../../shared/home/kept-card.ts";
import { storedJson } from "../file/stored-json.ts";

type VersionRow = Omit<HomeCardVersion, "card"> & { readonly card: string };
type DayRow = Omit<HomeCardDay, "ratings"> & { readonly ratings: string };

const toVersion = ({ card, ...row }: VersionRow): HomeCardVersion => ({
  ...row,
  card: storedJson(homeCardSchema, card),
});
const toDay = ({ ratings, ...row }: DayRow): HomeCardDay => ({
  ...row,
  ratings: storedJson(homeCardDaySchema.shape.ratings, ratings),
});

/** Home cards: versions, and the days that were typed in; both are only ever added. */
export function homeCardRepository(bare: Database.Database) {
  const insertVersion = bare.prepare<[VersionRow & { madeMs: number }]>(
    `INSERT INTO home_card (id, student_id, from_day, card, made_ms)
     VALUES (@id, @studentId, @fromDay, @card, @madeMs)`,
  );
  const versionsOf = bare.prepare<[string], VersionRow>(
    `SELECT id, student_id AS studentId, from_day AS fromDay, card FROM home_card
     WHERE student_id = ? ORDER BY made_ms, id`,
  );
  const insertDay = bare.prepare<[DayRow & { studentId: string; wallMs: number }]>(
    `INSERT INTO home_card_day
       (student_id, card_id, day, ratings, homework, went_well, tomorrow, wall_ms)
     VALUES (@studentId, @cardId, @day, @ratings, @homework, @wentWell, @tomorrow, @wallMs)`,
  );
  const columns = `card_id AS cardId, day, ratings, homework, went_well AS wentWell, tomorrow`;
  const daysOf = bare.prepare<[string, string, string], DayRow>(
    `SELECT ${columns} FROM home_card_day AS typed
     WHERE student_id = ? AND day BETWEEN ? AND ? AND NOT EXISTS (
       SELECT 1 FROM home_card_day AS later WHERE later.student_id = typed.student_id
         AND later.day = typed.day AND later.number > typed.number)
     ORDER BY day`,
  );

  return {
    addVersion({ card, ...version }: HomeCardVersion, madeMs: number): void {
      const row = { ...version, card: JSON.stringify(card), madeMs: Math.round(madeMs) };
      insertVersion.run(row);
    },

    /** In the order in which they were made. */
    versions: (studentId: string): HomeCardVersion[] => versionsOf.all(studentId).map(toVersion),

    addDay(studentId: string, { ratings, ...day }: HomeCardDay, wallMs: number): void {
      const kept = { ...day, studentId, ratings: JSON.stringify(ratings) };
      insertDay.run({ ...kept, wallMs: Math.round(wallMs) });
    },

    /** What stands of the days of a span, both ends included, oldest first. */
    days: (studentId: string, from: string, to: string): HomeCardDay[] =>
      daysOf.all(studentId, from, to).map(toDay),
  };
}
export type HomeCards = ReturnType<typeof homeCardRepository>;
