import { integer, primaryKey, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { wishKinds } from "../../../shared/teams/kept.ts";

// Of teams and pairs, as store/tables.ts of all else.

export const teamTerm = sqliteTable("team_term", {
  groupId: text("group_id").primaryKey().notNull(),
  seed: text().notNull(),
  deals: integer().notNull(),
  size: integer().notNull(),
  rounds: integer().notNull(),
  weekday: integer().notNull(),
  goal: real(),
  points: integer().notNull(),
  isShown: integer("is_shown", { mode: "boolean" }).notNull(),
});

export const teamName = sqliteTable(
  "team_name",
  {
    groupId: text("group_id").notNull(),
    team: integer().notNull(),
    name: text().notNull(),
  },
  (table) => [primaryKey({ columns: [table.groupId, table.team] })],
);

export const teamWish = sqliteTable("team_wish", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  kind: text({ enum: wishKinds }).notNull(),
});

export const teamWishStudent = sqliteTable(
  "team_wish_student",
  { wishId: text("wish_id").notNull(), studentId: text("student_id").notNull() },
  (table) => [primaryKey({ columns: [table.wishId, table.studentId] })],
);

export const teamRound = sqliteTable("team_round", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  number: integer().notNull(),
  startsOn: text("starts_on").notNull(),
});

export const teamPlace = sqliteTable(
  "team_place",
  {
    roundId: text("round_id").notNull(),
    studentId: text("student_id").notNull(),
    team: integer().notNull(),
  },
  (table) => [primaryKey({ columns: [table.roundId, table.studentId] })],
);

/** Where a student was in a round before a swap, up to the day before `until`. */
export const teamEarlierPlace = sqliteTable(
  "team_earlier_place",
  {
    roundId: text("round_id").notNull(),
    studentId: text("student_id").notNull(),
    until: text().notNull(),
    team: integer().notNull(),
  },
  (table) => [primaryKey({ columns: [table.roundId, table.studentId, table.until] })],
);

/** A day whose team goals were looked at for points. */
export const teamDay = sqliteTable("team_day", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  day: text().notNull(),
});

export const pairLesson = sqliteTable("pair_lesson", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  day: text().notNull(),
  points: integer().notNull(),
});

export const pairPart = sqliteTable(
  "pair_part",
  {
    lessonId: text("lesson_id").notNull(),
    studentId: text("student_id").notNull(),
    pair: integer(),
    taught: integer({ mode: "boolean" }).notNull(),
    corrected: integer({ mode: "boolean" }).notNull(),
  },
  (table) => [primaryKey({ columns: [table.lessonId, table.studentId] })],
);
