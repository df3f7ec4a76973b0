import { blob, integer, primaryKey, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { phaseKinds } from "../../shared/phase/phase.ts";
import { sessionKinds } from "../../shared/session/event.ts";

// What the typed queries know of the tables. The truth is in migrations/; a test holds the two together.

export const studentGroup = sqliteTable("student_group", {
  id: text().primaryKey().notNull(),
  name: text().notNull(),
  target: text().notNull(),
  isSample: integer("is_sample", { mode: "boolean" }).notNull(),
  position: integer().notNull(),
  createdMs: integer("created_ms").notNull(),
  archivedMs: integer("archived_ms"),
  weekdays: text().notNull().default("12345"),
});

export const student = sqliteTable("student", {
  number: integer().primaryKey().notNull(),
  id: text().notNull(),
  groupId: text("group_id").notNull(),
  name: text().notNull(),
  picture: text(),
  target: text().notNull(),
  position: integer().notNull(),
  createdMs: integer("created_ms").notNull(),
  archivedMs: integer("archived_ms"),
  importId: text("import_id"),
  holdGoal: real("hold_goal"),
  joinedMs: integer("joined_ms"),
});

export const stay = sqliteTable(
  "stay",
  {
    studentNumber: integer("student_number").notNull(),
    groupId: text("group_id").notNull(),
    fromMs: integer("from_ms").notNull(),
    untilMs: integer("until_ms").notNull(),
  },
  (table) => [primaryKey({ columns: [table.studentNumber, table.untilMs] })],
);

export const term = sqliteTable("term", {
  id: text().primaryKey().notNull(),
  name: text().notNull(),
  firstDay: text("first_day").notNull(),
  lastDay: text("last_day").notNull(),
});

export const ownChime = sqliteTable("own_chime", {
  id: text().primaryKey().notNull(),
  name: text().notNull(),
  madeMs: integer("made_ms").notNull(),
  sound: blob({ mode: "buffer" }).notNull(),
});

export const putAside = sqliteTable("put_aside", {
  what: text().primaryKey().notNull(),
  atMs: integer("at_ms").notNull(),
});

export const plan = sqliteTable("plan", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  name: text().notNull(),
  settings: text().notNull(),
  createdMs: integer("created_ms").notNull(),
  archivedMs: integer("archived_ms"),
});

export const phase = sqliteTable("phase", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  studentId: text("student_id"),
  kind: text({ enum: phaseKinds }).notNull(),
  label: text().notNull(),
  startsOn: text("starts_on").notNull(),
  drawnFrom: text("drawn_from"),
  drawnTo: text("drawn_to"),
  drawnSeed: text("drawn_seed"),
  drawnDays: text("drawn_days"),
  drawnTimes: integer("drawn_times"),
  probeUntil: text("probe_until"),
  probeSeed: text("probe_seed"),
  probeDays: text("probe_days"),
});

/** Phases that came with an import. */
export const importedPhase = sqliteTable("imported_phase", {
  phaseId: text("phase_id").primaryKey().notNull(),
  importId: text("import_id").notNull(),
});

export const alternation = sqliteTable("alternation", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  nameA: text("name_a").notNull(),
  nameB: text("name_b").notNull(),
  turns: text().notNull(),
  seed: text().notNull(),
  times: integer().notNull(),
  createdMs: integer("created_ms").notNull(),
});

export const alternatedSession = sqliteTable("alternated_session", {
  sessionNumber: integer("session_number").primaryKey().notNull(),
  alternationId: text("alternation_id").notNull(),
  place: integer().notNull(),
});

export const setting = sqliteTable("setting", {
  name: text().primaryKey().notNull(),
  value: text().notNull(),
});

export const session = sqliteTable("session", {
  number: integer().primaryKey().notNull(),
  id: text().notNull(),
  groupId: text("group_id").notNull(),
  kind: text({ enum: sessionKinds }).notNull(),
  planName: text("plan_name").notNull(),
  plan: text().notNull(),
  seed: text().notNull(),
  startedMs: integer("started_ms").notNull(),
  offsetMinutes: integer("offset_minutes").notNull(),
  day: text().notNull(),
  erasedSeq: integer("erased_seq").notNull().default(0),
  importId: text("import_id"),
});

export const sessionEvent = sqliteTable(
  "session_event",
  {
    sessionNumber: integer("session_number").notNull(),
    seq: integer().notNull(),
    kind: text().notNull(),
    atMs: integer("at_ms").notNull(),
    wallMs: integer("wall_ms").notNull(),
    offsetMinutes: integer("offset_minutes").notNull(),
    studentNumber: integer("student_number"),
    cue: integer(),
    value: text(),
    way: text(),
    late: integer(),
    detail: text(),
  },
  (table) => [primaryKey({ columns: [table.sessionNumber, table.seq] })],
);

export const erasure = sqliteTable("erasure", { open: integer().primaryKey().notNull() });

export const dayOff = sqliteTable("day_off", {
  id: text().primaryKey().notNull(),
  firstDay: text("first_day").notNull(),
  lastDay: text("last_day").notNull(),
  label: text().notNull(),
});

export const program = sqliteTable("program", {
  groupId: text("group_id").primaryKey().notNull(),
  goal: real().notNull(),
  stepMeans: text("step_means").notNull(),
  place: integer().notNull(),
  pointsPaid: integer("points_paid", { mode: "boolean" }).notNull(),
  placeSince: text("place_since").notNull(),
  placeSinceMs: integer("place_since_ms"),
});

export const adviceDecision = sqliteTable("advice_decision", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  studentId: text("student_id"),
  advice: text().notNull(),
  accepted: integer({ mode: "boolean" }).notNull(),
  note: text().notNull(),
  decidedMs: integer("decided_ms").notNull(),
  day: text().notNull(),
});

export const practiceExample = sqliteTable(
  "practice_example",
  {
    groupId: text("group_id").notNull(),
    isWorking: integer("is_working", { mode: "boolean" }).notNull(),
    position: integer().notNull(),
    words: text().notNull(),
  },
  (table) => [primaryKey({ columns: [table.groupId, table.isWorking, table.position] })],
);

export const recordImport = sqliteTable("record_import", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  importedMs: integer("imported_ms").notNull(),
});

export const privilege = sqliteTable("privilege", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  name: text().notNull(),
  picture: text(),
  price: integer().notNull(),
  band: integer().notNull(),
  places: integer(),
  minutes: integer(),
  perDay: integer("per_day"),
  position: integer().notNull(),
  archivedMs: integer("archived_ms"),
});

export const notFor = sqliteTable(
  "not_for",
  { privilegeId: text("privilege_id").notNull(), studentId: text("student_id").notNull() },
  (table) => [primaryKey({ columns: [table.privilegeId, table.studentId] })],
);

export const period = sqliteTable("period", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  name: text().notNull(),
  starts: text(),
  ends: text(),
  position: integer().notNull(),
  exchange: integer({ mode: "boolean" }).notNull(),
});

export const ledgerEntry = sqliteTable("ledger_entry", {
  number: integer().primaryKey().notNull(),
  id: text().notNull(),
  studentNumber: integer("student_number").notNull(),
  source: text().notNull(),
  sourceKey: text("source_key").notNull(),
  rule: text().notNull(),
  revision: integer().notNull(),
  amount: integer().notNull(),
  due: integer(),
  forgiven: integer().notNull(),
  day: text().notNull(),
  wallMs: integer("wall_ms").notNull(),
  offsetMinutes: integer("offset_minutes").notNull(),
  reverses: integer(),
  privilegeId: text("privilege_id"),
});

/** How far the ledger has followed each session's log. */
export const settled = sqliteTable("settled", {
  sessionNumber: integer("session_number").primaryKey().notNull(),
  seq: integer().notNull(),
});

export const agreedAnswer = sqliteTable("agreed_answer", {
  number: integer().primaryKey().notNull(),
  studentId: text("student_id").notNull(),
  line: text().notNull(),
  answer: text().notNull(),
  day: text().notNull(),
  who: text().notNull(),
  wallMs: integer("wall_ms").notNull(),
});

export const studentPaper = sqliteTable("student_paper", {
  studentId: text("student_id").primaryKey().notNull(),
  reviewOn: text("review_on"),
  language: text(),
  cardStopped: integer("card_stopped", { mode: "boolean" }).notNull(),
});

export const familyWords = sqliteTable("family_words", {
  studentId: text("student_id").primaryKey().notNull(),
  words: text().notNull(),
  day: text().notNull(),
});

export const homeCard = sqliteTable("home_card", {
  id: text().primaryKey().notNull(),
  studentId: text("student_id").notNull(),
  fromDay: text("from_day").notNull(),
  card: text().notNull(),
  madeMs: integer("made_ms").notNull(),
});

export const homeCardDay = sqliteTable("home_card_day", {
  number: integer().primaryKey().notNull(),
  studentId: text("student_id").notNull(),
  cardId: text("card_id").notNull(),
  day: text().notNull(),
  ratings: text().notNull(),
  homework: text().notNull(),
  wentWell: text("went_well").notNull(),
  tomorrow: text().notNull(),
  wallMs: integer("wall_ms").notNull(),
});

export const contract = sqliteTable("contract", {
  id: text().primaryKey().notNull(),
  studentId: text("student_id").notNull(),
  terms: text().notNull(),
  fromDay: text("from_day").notNull(),
  reviewOn: text("review_on").notNull(),
  madeMs: integer("made_ms").notNull(),
  signedOn: text("signed_on"),
  endedOn: text("ended_on"),
});

export const contractDay = sqliteTable("contract_day", {
  id: text().primaryKey().notNull(),
  contractId: text("contract_id").notNull(),
  studentId: text("student_id").notNull(),
  day: text().notNull(),
  wallMs: integer("wall_ms").notNull(),
});

export const ownGoal = sqliteTable("own_goal", {
  studentNumber: integer("student_number").primaryKey().notNull(),
  share: real().notNull(),
});

export const savingFor = sqliteTable("saving_for", {
  studentNumber: integer("student_number").primaryKey().notNull(),
  privilegeId: text("privilege_id").notNull(),
});

/** Until when a group spends the points that are left. */
export const lastSpending = sqliteTable("last_spending", {
  groupId: text("group_id").primaryKey().notNull(),
  until: text().notNull(),
});

export const classTimer = sqliteTable("class_timer", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  name: text().notNull(),
  minutes: integer().notNull(),
  endsMs: integer("ends_ms").notNull(),
});

/** A student's own device, by its slip; the code is kept as a hash, and not at all once it is void. */
export const seat = sqliteTable("seat", {
  id: text().primaryKey().notNull(),
  groupId: text("group_id").notNull(),
  number: integer().notNull(),
  studentId: text("student_id"),
  code: text(),
  language: text({ enum: ["en", "es"] }).notNull(),
  look: text({ enum: ["words", "pictures"] }).notNull(),
  printedMs: integer("printed_ms"),
});
