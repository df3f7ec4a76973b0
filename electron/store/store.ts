import type Database from "better-sqlite3";
import { type Alternations, alternationRepository } from "./alternations.ts";
import { connection } from "./connection.ts";
import { type Counts, countsRepository } from "./counts.ts";
import { type Damage, damageFound } from "./damage.ts";
import { type DaysOff, dayOffRepository } from "./days-off.ts";
import { type Decisions, decisionRepository } from "./decisions.ts";
import { compact, type Erased, eraseStudent, removeGroup } from "./erasing/erase.ts";
import { type ErasedGroup, eraseGroup } from "./erasing/erase-group.ts";
import { eraseReturned } from "./erasing/erase-returned.ts";
import { studentIds } from "./event-row.ts";
import { backUpElsewhere } from "./file/backup.ts";
import { backupKeeper } from "./file/backup-keeper.ts";
import { bringBackup } from "./file/bring-backup.ts";
import { type Lost, lostByRestoring } from "./file/compare.ts";
import { type FolderLock, lockFolder } from "./file/folder-lock.ts";
import { inTransaction } from "./file/in-transaction.ts";
import { openDatabase } from "./file/open-database.ts";
import { openToRead } from "./file/open-to-read.ts";
import { tighten } from "./file/private-files.ts";
import {
  type Attempt,
  attemptToRead,
  guarded,
  StoreError,
  type StoreProblem,
  toStoreError,
  withStoreErrors,
} from "./file/store-error.ts";
import { type Groups, groupRepository } from "./groups.ts";
import { type Agreed, agreedRepository } from "./home/agreed.ts";
import { type Contracts, contractRepository } from "./home/contracts.ts";
import { type FamilyWordsRepository, familyWordsRepository } from "./home/family-words.ts";
import { type HomeCards, homeCardRepository } from "./home/home-cards.ts";
import { type Imports, importRepository, type Undone, undoImport } from "./imports.ts";
import { type Ledger, ledgerRepository } from "./ledger.ts";
import { newId } from "./new-id.ts";
import { type Phases, phaseRepository } from "./phases.ts";
import { type Plans, planRepository } from "./plans.ts";
import { type PracticeExampleRepository, practiceExampleRepository } from "./practice-examples.ts";
import { forgetPractices } from "./practice-marks.ts";
import { type Privileges, privilegeRepository } from "./privileges.ts";
import { type Programs, programRepository } from "./programs.ts";
import { type OwnChimes, ownChimeRepository } from "./school/own-chimes.ts";
import { type PutAside, putAsideRepository } from "./school/put-aside.ts";
import { type Terms, termRepository } from "./school/terms.ts";
import { type Seats, seatRepository } from "./seats/seats.ts";
import { type SessionLog, sessionLogRepository } from "./session-log.ts";
import { type Outlines, outlineRepository } from "./session-outlines.ts";
import { sessionReadings } from "./session-readings.ts";
import { type Sessions, sessionRepository } from "./sessions.ts";
import { type SettingsRepository, settingsRepository } from "./settings.ts";
import { type Students, studentRepository } from "./students.ts";
import { type PairLessons, pairLessonRepository } from "./teams/pair-lessons.ts";
import { type Teams, teamRepository } from "./teams/teams.ts";
import { type Wishes, wishRepository } from "./wishes.ts";

export { restoreBackup } from "./file/backup.ts";
export { type Running, readRunning, removeRunning, writeRunning } from "./file/folder-lock.ts";
export { StoreError, type StoreProblem } from "./file/store-error.ts";

/** What can stand in the way of writing for as long as the app runs. */
export type NoWriting = Extract<StoreProblem, "full" | "read-only">;

export interface StoreOptions {
  /** The data folder; made when it is not there. */
  readonly folder: string;
  /** Wall clock, ms since 1970 UTC. */
  readonly now: () => number;
}

/**
 * All that Pebblechime keeps, one repository for each kind of thing. Every call is synchronous and what
 * it wrote is on the disk when it returns; every failure of the disk or of SQLite is a StoreError.
 */
export interface Store {
  readonly folder: string;
  /** Whether other users of the computer can change what is in the data folder. */
  readonly isOpenToOthers: boolean;
  /** Why nothing can be written, or null when all is well. */
  readonly readingOnly: NoWriting | null;
  readonly groups: Groups;
  readonly students: Students;
  readonly plans: Plans;
  readonly phases: Phases;
  readonly alternations: Alternations;
  readonly settings: SettingsRepository;
  readonly sessions: Sessions;
  readonly log: SessionLog;
  readonly outlines: Outlines;
  readonly counts: Counts;
  /** What was found damaged in this run. */
  readonly damage: Damage;
  readonly daysOff: DaysOff;
  readonly programs: Programs;
  readonly decisions: Decisions;
  readonly practiceExamples: PracticeExampleRepository;
  readonly imports: Imports;
  readonly ownChimes: OwnChimes;
  readonly terms: Terms;
  readonly putAside: PutAside;
  readonly ledger: Ledger;
  readonly privileges: Privileges;
  readonly agreed: Agreed;
  readonly familyWords: FamilyWordsRepository;
  readonly homeCards: HomeCards;
  readonly contracts: Contracts;
  readonly wishes: Wishes;
  readonly teams: Teams;
  readonly pairLessons: PairLessons;
  readonly seats: Seats;
  /** All that `work` writes is kept, or none of it. */
  transaction<Result>(work: () => Result): Result;
  /** Takes the daily backup if it is due; returns its path or null. Not for the middle of a session. */
  backUpIfDue(): string | null;
  /** When the last good backup was taken, ms since 1970 UTC; null when there is none. */
  lastBackupMs(): number | null;
  /** Writes a verified copy to a folder elsewhere, by its absolute path; returns the copy's. */
  backUpElsewhere(elsewhere: string): string;
  /** Takes a backup from elsewhere among the kept ones, without whoever was erased here; returns its name. */
  bringBackup(path: string): string;
  /** What restoring a backup would lose, by its path. */
  lostByRestoring(path: string): Lost;
  /** Removes every trace of a student, from kept backups too; null when there is no such student. */
  eraseStudent(id: string): Erased | null;
  /** Removes every trace of a group with its students, from kept backups too; null when there is none. */
  eraseGroup(id: string): ErasedGroup | null;
  /** Removes a group with everything that belongs to it. Meant for the sample: it stays in backups. */
  removeGroup(id: string): { readonly students: number };
  /** Takes out what was marked and seen in practices that have ended; returns how many events went. */
  forgetPractices(): number;
  /** Takes an import back; null when there is no such import. See `undoImport`. */
  undoImport(id: string): Undone | null;
  close(): void;
}

/**
 * Takes the data folder for this process and opens what is in it, making it when there is nothing.
 *
 * @throws StoreError; then the folder is free again and its files are as they were
 */
export function openStore({ folder, now }: StoreOptions): Store {
  const lock = lockFolder(folder);
  try {
    const bare = openDatabase(folder, now(), undefined, (found) => {
      if (eraseReturned(found, folder) > 0) compact(found);
    });
    const isOpenToOthers = withStoreErrors(() => tighten(folder));
    return storeOn(bare, { folder, now, lock, isOpenToOthers, readingOnly: null });
  } catch (error) {
    lock.release();
    throw error;
  }
}

/**
 * Opens what is in a data folder where nothing can be written. All can be looked at; whatever would
 * write is refused as `reading-only`, and nothing on the disk changes.
 *
 * @param because what stands in the way of writing
 * @throws StoreError when the folder is taken, or there is nothing to read
 */
export function openStoreToRead({ folder, now }: StoreOptions, because: NoWriting): Store {
  const lock = lockIfPossible(folder);
  try {
    const bare = openToRead(folder, undefined, (found) => void eraseReturned(found, folder));
    return storeOn(bare, { folder, now, lock, isOpenToOthers: false, readingOnly: because });
  } catch (error) {
    lock.release();
    throw error;
  }
}

/** On such a disk the lock often cannot be had; only somebody else's hold on it is a reason to go. */
function lockIfPossible(folder: string): FolderLock {
  try {
    return lockFolder(folder);
  } catch (error) {
    if (error instanceof StoreError && error.problem === "folder-taken") throw error;
    return { release: () => {} };
  }
}

interface Opened extends StoreOptions {
  readonly lock: FolderLock;
  readonly isOpenToOthers: boolean;
  readonly readingOnly: NoWriting | null;
}

function storeOn(bare: Database.Database, opened: Opened): Store {
  const { folder, now, lock, isOpenToOthers, readingOnly } = opened;
  const attempt: Attempt = readingOnly === null ? withStoreErrors : attemptToRead;
  const open = connection(bare);
  const damage = damageFound();
  const safe = <Repository extends object>(repository: Repository) => guarded(repository, attempt);
  const students = studentIds(open);
  const readings = sessionReadings(open, students);
  const backups = backupKeeper(bare, folder, now);
  /** What reaches beyond the open file: the kept backups, and pages that are freed. */
  const changing = <Result>(work: () => Result): Result =>
    attempt(() => {
      if (readingOnly !== null) throw new StoreError("reading-only");
      students.forget();
      readings.forget();
      return work();
    });
  return {
    folder,
    isOpenToOthers,
    readingOnly,
    groups: safe(groupRepository(open)),
    students: safe(studentRepository(open)),
    plans: safe(planRepository(open)),
    phases: safe(phaseRepository(open)),
    alternations: safe(alternationRepository(open)),
    settings: safe(settingsRepository(open)),
    sessions: safe(sessionRepository(open, damage)),
    log: safe(sessionLogRepository(open, students, damage)),
    outlines: safe(outlineRepository(open, readings)),
    counts: safe(countsRepository(open, students, readings, damage)),
    damage,
    daysOff: safe(dayOffRepository(open)),
    programs: safe(programRepository(open)),
    decisions: safe(decisionRepository(open)),
    practiceExamples: safe(practiceExampleRepository(open)),
    imports: safe(importRepository(open)),
    ownChimes: safe(ownChimeRepository(bare, newId)),
    terms: safe(termRepository(bare, newId)),
    putAside: safe(putAsideRepository(bare)),
    ledger: safe(ledgerRepository(open)),
    privileges: safe(privilegeRepository(open)),
    agreed: safe(agreedRepository(bare)),
    familyWords: safe(familyWordsRepository(bare)),
    homeCards: safe(homeCardRepository(bare)),
    contracts: safe(contractRepository(bare)),
    wishes: safe(wishRepository(open)),
    teams: safe(teamRepository(open, newId)),
    pairLessons: safe(pairLessonRepository(open, newId)),
    seats: safe(seatRepository(bare)),
    transaction: (work) => attempt(() => inTransaction(bare, work)),
    backUpIfDue: () => (readingOnly === null ? attempt(backups.takeIfDue) : null),
    lastBackupMs: () => attempt(backups.lastGoodMs),
    backUpElsewhere: (elsewhere) => attempt(() => backUpElsewhere(bare, elsewhere, now())),
    bringBackup: (path) =>
      changing(() => bringBackup(folder, path, (copy) => void eraseReturned(copy, folder))),
    lostByRestoring: (path) => attempt(() => lostByRestoring(bare, path)),
    eraseStudent: (id) => changing(() => eraseStudent(bare, folder, id)),
    eraseGroup: (id) => changing(() => eraseGroup(bare, folder, id)),
    removeGroup: (id) => changing(() => removeGroup(bare, id)),
    forgetPractices: () => (readingOnly === null ? changing(() => forgetPractices(bare)) : 0),
    undoImport: (id) => changing(() => undoImport(bare, id)),
    close() {
      if (!bare.open) return;
      optimize(bare);
      bare.close();
      lock.release();
    },
  };
}

/** Refreshes the query planner's statistics; on a full disk they can wait, closing cannot. */
function optimize(bare: Database.Database): void {
  try {
    bare.pragma("optimize");
  } catch (error) {
    if (!(toStoreError(error) instanceof StoreError)) throw error;
  }
}
