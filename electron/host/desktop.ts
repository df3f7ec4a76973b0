import { randomUUID } from "node:crypto";
import { existsSync, statfsSync } from "node:fs";
import { join } from "node:path";
import { adviceHandlers } from "../services/advice.ts";
import { alternationHandlers } from "../services/alternations.ts";
import { analysisHandlers } from "../services/analysis.ts";
import { dailyBackups } from "../services/backups.ts";
import { changeFeed } from "../services/base/changes.ts";
import type { Cancel, DesktopClock } from "../services/base/clock.ts";
import type { CallContext, Handlers } from "../services/base/handlers.ts";
import { withStoreRefusals } from "../services/base/store-refusals.ts";
import { calendarHandlers } from "../services/calendar.ts";
import { careHandlers } from "../services/care.ts";
import { chimeHandlers } from "../services/chimes.ts";
import { classScreenHandlers } from "../services/class-screen.ts";
import { followRecords } from "../services/follow-records.ts";
import { agreedHandlers } from "../services/home/agreed.ts";
import { contractHandlers } from "../services/home/contracts.ts";
import { familyHandlers } from "../services/home/family.ts";
import { homeCardHandlers } from "../services/home/home-cards.ts";
import { type Conductor, conductor } from "../services/live/conductor.ts";
import { recordHandlers } from "../services/live/records.ts";
import { cuedIds } from "../services/live/session-summary.ts";
import { touchedTopics } from "../services/live/session-topics.ts";
import { sessionHandlers } from "../services/live/sessions.ts";
import { pairsHandlers } from "../services/pairs.ts";
import { phaseHandlers } from "../services/phases.ts";
import { planHandlers } from "../services/plans.ts";
import { repairSession } from "../services/points/repairing.ts";
import { type Settling, settling } from "../services/points/settling.ts";
import { pointsHandlers } from "../services/points.ts";
import { practiceHandlers, programHandlers } from "../services/program.ts";
import { groupHandlers, studentHandlers } from "../services/roster.ts";
import { addSample } from "../services/sample-class.ts";
import type { SeatsHosting } from "../services/seats/opening.ts";
import { appHandlers } from "../services/settings.ts";
import { teamsHandlers } from "../services/teams.ts";
import { transferHandlers } from "../services/transfer/transfer.ts";
import { databaseName } from "../store/file/backup.ts";
import { type Restored, restoreAsked } from "../store/file/restore-next.ts";
import {
  type NoWriting,
  openStore,
  openStoreToRead,
  type Store,
  StoreError,
} from "../store/store.ts";
import { seatsDesk } from "./seats-desk.ts";
import { withoutWords } from "./without-words.ts";

export interface DesktopOptions {
  /** The data folder; made when it is not there. */
  readonly folder: string;
  readonly clock: DesktopClock;
  readonly host: "electron" | "loopback";
  readonly version: string;
  /** Adds the invented class unless it is there. */
  readonly sample?: boolean;
  /** What pages are told of the clock's speed; its own when left out. */
  readonly speed?: number;
  /** How students' own devices are served. */
  readonly seats?: SeatsHosting;
}

/** For a desktop side whose host has no page for devices: opening seats is refused. */
const noSeats: SeatsHosting = { folder: "", port: 0, certificateFile: null, socketsAnAddress: 60 };

/** Everything behind the API, for whichever host shows its pages. */
export interface Desktop {
  readonly handlers: Handlers;
  /** Why all can be looked at and nothing be saved, or null when all is well. */
  readonly readingOnly: NoWriting | null;
  /** Stops the live session where it is; the next start offers to go on with it. */
  close(): Promise<void>;
  /** The system's words on sleep: hints, see the conductor. */
  suspend(): void;
  wake(): void;
  /** The screen was locked, and opened again. */
  locked(): void;
  unlocked(): void;
  /** Tells whether a session is running, at once and whenever that changes. */
  onLive(listener: (live: boolean) => void): void;
}

/** Sessions counted in one step, and ms of real time before the first step and between two. */
const countStep = 20;
const firstCountMs = 3_000;
const countPauseMs = 50;

/** The ledger is held to its logs from so long after the start, one session every so often, in ms of real time. */
const firstRepairMs = 5_000;
const repairPauseMs = 50;

/**
 * Opens the data folder and starts what runs behind the pages.
 *
 * @throws StoreError when the folder is taken, or its data cannot be used; nothing is left open then
 */
export async function openDesktop(options: DesktopOptions): Promise<Desktop> {
  const { folder, clock, host, version } = options;
  const { sample = false, speed = clock.speed, seats = noSeats } = options;
  const asked = { folder, now: clock.wallMs };
  const restored = restoreIfAsked(folder, clock.wallMs());
  const open = (store: Store): Desktop => {
    try {
      return start(store, { clock, host, version, sample, speed, seats, restored });
    } catch (error) {
      store.close();
      throw error;
    }
  };
  try {
    return open(openStore(asked));
  } catch (error) {
    const because = noWriting(error, folder);
    if (because === null || !existsSync(join(folder, databaseName))) throw error;
    // What is there can at least be looked at.
    return open(openStoreToRead(asked, because));
  }
}

/** Less room than a start needs beside the data file, in bytes. */
const littleRoom = 1_000_000;

/** Whether a start failed because the disk lets nothing be written. */
function noWriting(error: unknown, folder: string): NoWriting | null {
  if (!(error instanceof StoreError)) return null;
  if (error.problem === "full" || error.problem === "read-only") return error.problem;
  if (error.problem !== "failed") return null;
  // Some systems call a full disk a failure of another kind.
  const { bavail, bsize, blocks } = statfsSync(folder);
  return blocks > 0 && bavail * bsize < littleRoom ? "full" : null;
}

/** On a disk that cannot be written nothing is restored, and what is there can still be looked at. */
function restoreIfAsked(folder: string, nowMs: number): Restored | null {
  try {
    return restoreAsked(folder, nowMs);
  } catch (error) {
    if (error instanceof StoreError && error.problem !== "folder-taken") return null;
    throw error;
  }
}

/** Whoever begins with this version has nothing to be told of what is new in it. */
function passOverNews(store: Store, version: string): void {
  if (store.readingOnly !== null || store.settings.get().newsSeen !== null) return;
  const isNew = [false, true].every((archived) => store.groups.list(archived).length === 0);
  if (isNew) store.settings.save({ newsSeen: version });
}

type StartOptions = Required<Omit<DesktopOptions, "folder">> & {
  readonly restored: Restored | null;
};

function start(
  store: Store,
  { clock, host, version, sample, speed, seats, restored }: StartOptions,
): Desktop {
  begun(store, clock, { version, sample });
  const changes = changeFeed(randomUUID());
  const listeners = new Set<(live: boolean) => void>();
  let live = false;
  const isQuiet = (): boolean => running.liveId() === null;
  const backups = dailyBackups({
    store,
    clock,
    isQuiet,
    onCare: () => changes.publish("care"),
    report,
  });
  store.damage.onChange(() => changes.publish("care"));
  const settled = settling(store);
  const behind = store.readingOnly === null ? settled.catchUpAll() : 0;
  if (behind > 0) console.error(`The points of ${behind} sessions were brought up to their logs.`);
  const follow = followRecords(store, clock, changes, report);
  const running = conductor({
    clock,
    log: {
      ...store.log,
      appendAll: settled.appendAll,
      // Nothing of an open session can be settled where nothing can be written.
      openSessionId: store.readingOnly === null ? store.log.openSessionId : () => null,
    },
    sessionOf: store.sessions.get,
    studentIdsOf: ({ groupId, kind }) => cuedIds(store, groupId, kind),
    onWritten(sessionId, events) {
      const topics = touchedTopics(events, () => store.log.openSessionId() === sessionId);
      if (topics.length > 0) changes.publish(...topics);
      if (topics.includes("records")) follow.session(sessionId);
      if (events.some(({ body }) => body.kind === "ended")) backups.sessionEnded();
    },
    onLive(now) {
      if (now && !live) store.forgetPractices();
      live = now;
      for (const listener of listeners) listener(now);
    },
    report,
  });
  const about = { version, host, speed };
  const points = pointsHandlers(store, running, changes, clock);
  const seated = seatsDesk({
    store,
    running,
    clock,
    changes,
    points,
    hosting: seats,
    recover() {
      settled.forget();
      running.refresh();
    },
    report,
  });
  const all = afterErasures(running, settled, {
    app: appHandlers(store, changes, clock, about),
    classScreen: classScreenHandlers(store, changes, clock),
    chimes: chimeHandlers(store, changes, clock),
    groups: groupHandlers(store, changes, clock),
    students: studentHandlers(store, changes, clock),
    plans: planHandlers(store, changes, clock),
    sessions: sessionHandlers(store, running, clock),
    records: recordHandlers(store, running, { changes, clock, appendAll: settled.appendAll }),
    analysis: analysisHandlers(store, clock),
    phases: phaseHandlers(store, changes, clock),
    alternations: alternationHandlers(store, changes, clock),
    calendar: calendarHandlers(store, changes, clock),
    program: programHandlers(store, changes, clock),
    advice: adviceHandlers(store, changes, clock),
    practice: practiceHandlers(store, changes),
    transfer: transferHandlers(store, changes, clock),
    agreed: agreedHandlers(store, running, changes, clock),
    family: familyHandlers(store, changes, clock),
    homeCards: homeCardHandlers(store, changes, clock),
    teams: teamsHandlers(store, changes, clock),
    pairs: pairsHandlers(store, changes, clock),
    contracts: contractHandlers(store, changes, clock),
    points,
    seats: seated.handlers,
    care: careHandlers(store, { backups, running, settled, restored }, changes, clock),
  });
  const handlers = withStoreRefusals(store.readingOnly === null ? all : neverRunning(all));
  backups.begin();
  follow.contracts();
  const stopWork = workInQuiet(store, clock, isQuiet, () => {
    settled.forget();
    changes.publish("points");
  });
  let closed = false;
  return {
    handlers,
    readingOnly: store.readingOnly,
    async close() {
      if (closed) return;
      closed = true;
      stopWork();
      await seated.close();
      running.stop();
      backups.close();
      store.close();
    },
    suspend() {
      running.suspend();
      seated.opening.slept();
    },
    wake: () => running.wake(),
    locked: () => seated.opening.locked(),
    unlocked: () => seated.opening.unlocked(),
    onLive(listener) {
      listeners.add(listener);
      listener(live);
    },
  };
}

/** What is done once at each start. */
function begun(
  store: Store,
  clock: DesktopClock,
  { version, sample }: Pick<StartOptions, "version" | "sample">,
): void {
  store.forgetPractices();
  passOverNews(store, version);
  if (sample && store.readingOnly === null && store.groups.sample() === null)
    addSample(store, clock);
}

/** What is done bit by bit while no session is live; the answer ends it. */
function workInQuiet(
  store: Store,
  clock: DesktopClock,
  isQuiet: () => boolean,
  onRepaired: () => void,
): () => void {
  const stopCounting = countInQuiet(store, clock, isQuiet);
  const stopRepairing = repairInQuiet(store, clock, isQuiet, onRepaired);
  return () => {
    stopCounting();
    stopRepairing();
  };
}

/** A session that went on without a log would ask children for marks that nobody keeps. */
function neverRunning(handlers: Handlers): Handlers {
  const resume = () => {
    throw new StoreError("reading-only");
  };
  return { ...handlers, sessions: { ...handlers.sessions, resume } };
}

/** What was erased from the store must leave the live session, and what is known of the ledger, too. */
function afterErasures(running: Conductor, settled: Settling, handlers: Handlers): Handlers {
  const { app, groups, students, transfer } = handlers;
  const forgetting =
    <Input, Answer>(erase: (input: Input, context: CallContext) => Answer) =>
    async (input: Input, context: CallContext): Promise<Awaited<Answer>> => {
      const answer = await erase(input, context);
      settled.forget();
      running.refresh();
      return answer;
    };
  return {
    ...handlers,
    app: { ...app, removeSample: forgetting(app.removeSample) },
    groups: { ...groups, erase: forgetting(groups.erase) },
    students: { ...students, erase: forgetting(students.erase) },
    transfer: { ...transfer, undoImport: forgetting(transfer.undoImport) },
  };
}

/** Counts what the analysis pane will ask for, in steps too short for anyone to notice. */
function countInQuiet(store: Store, clock: DesktopClock, isQuiet: () => boolean): Cancel {
  let cancel: Cancel = () => {};
  const countIn = (realMs: number): void => {
    cancel = clock.after(realMs * clock.speed, () => {
      try {
        if (isQuiet() && store.counts.countAhead(countStep)) countIn(countPauseMs);
      } catch (error) {
        report(error);
      }
    });
  };
  countIn(firstCountMs);
  return () => cancel();
}

/** Holds the ledger to the log of each session that earned, the newest first and one at a time. */
function repairInQuiet(
  store: Store,
  clock: DesktopClock,
  isQuiet: () => boolean,
  onRepaired: () => void,
): Cancel {
  let cancel: Cancel = () => {};
  const waiting = store.readingOnly === null ? store.ledger.earningSessions().reverse() : [];
  const repairIn = (realMs: number): void => {
    if (waiting.length === 0) return;
    cancel = clock.after(realMs * clock.speed, () => {
      const sessionId = isQuiet() ? waiting.pop() : undefined;
      if (sessionId !== undefined) {
        try {
          const wrong = repairSession(store, sessionId);
          if (wrong.length > 0) {
            console.error(`Points of a session settled anew (${sessionId}): ${wrong.join("; ")}`);
            onRepaired();
          }
        } catch (error) {
          // A session that cannot be read keeps no other waiting.
          report(error);
        }
      }
      repairIn(sessionId === undefined ? firstCountMs : repairPauseMs);
    });
  };
  repairIn(firstRepairMs);
  return () => cancel();
}

/** For failures of work that nobody waits for. */
function report(error: unknown): void {
  console.error(`Behind the pages: ${withoutWords(error)}`);
}
