import { existsSync } from "node:fs";
import { basename, isAbsolute } from "node:path";
import type { DamagedSession, KeptBackup } from "../../shared/api/care.ts";
import { localDay } from "../../shared/calendar/local-day.ts";
import { type Backup, isProvenUseless, listBackups, verifyBackup } from "../store/file/backup.ts";
import { askedToRestore, askToRestore, type Restored } from "../store/file/restore-next.ts";
import type { Store } from "../store/store.ts";
import { StoreError } from "../store/store.ts";
import type { DailyBackups } from "./backups.ts";
import type { Changes } from "./base/changes.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import type { WallClock } from "./base/wall-clock.ts";
import type { Conductor } from "./live/conductor.ts";
import { passOver } from "./live/log-door.ts";
import type { Settling } from "./points/settling.ts";

interface Keepers {
  readonly backups: DailyBackups;
  readonly running: Conductor;
  readonly settled: Settling;
  readonly restored: Restored | null;
}

/** How the data is, and the way out where part of it is damaged. */
export function careHandlers(
  store: Store,
  { backups, running, settled, restored }: Keepers,
  changes: Changes,
  clock: WallClock,
): Handlers["care"] {
  function placed(sessionId: string, entries: number): DamagedSession[] {
    const place = store.sessions.placeOf(sessionId);
    return place === null ? [] : [{ sessionId, ...place, entries }];
  }

  function refuseWhileLive(): void {
    if (running.liveId() === null) return;
    throw new Refusal("session-running", "A session is still open. End it first, then try again.");
  }

  return {
    state: () => ({
      backup: backups.care(),
      readingOnly: store.readingOnly,
      openToOthers: store.isOpenToOthers,
      restored,
      damaged: [...store.damage.all()].flatMap(([id, entries]) => placed(id, entries)),
      passedOver: store.sessions.withPassedOver().flatMap(({ id, entries }) => placed(id, entries)),
    }),

    backups: () => ({
      backups: listBackups(store.folder).map((backup) => toKept(store, backup, clock)),
      next: askedToRestore(store.folder),
    }),

    copyTo({ folder }) {
      // From a page there is no folder that a relative path could start from.
      if (!isAbsolute(folder)) throw new Missing("folder");
      if (!existsSync(folder)) throw new Missing("folder");
      refuseWhileLive();
      return { path: store.backUpElsewhere(folder) };
    },

    bring({ path }) {
      if (!isAbsolute(path) || !existsSync(path)) throw new Missing("backup");
      refuseWhileLive();
      const name = brought(store, path);
      changes.publish("care");
      return { name };
    },

    restoreNext({ name }) {
      if (store.readingOnly !== null) throw new StoreError("reading-only");
      const backup = listBackups(store.folder).find(({ path }) => basename(path) === name);
      if (name !== null && backup === undefined) throw new Missing("backup");
      if (backup !== undefined) verifyKept(backup.path);
      askToRestore(store.folder, name);
      changes.publish("care");
      return {};
    },

    passOver({ sessionId }) {
      if (store.sessions.get(sessionId) === null) throw new Missing("session");
      const entries = passOver(store.log, sessionId, clock);
      store.damage.repaired(sessionId);
      settled.catchUp(sessionId);
      running.refresh();
      // It may have been open when the app stopped.
      running.recover();
      changes.publish("sessions", "records", "care");
      return { entries };
    },
  };
}

/** Reads a kept backup through. What is wrong with it is nothing that is wrong with the data here. */
function verifyKept(path: string): void {
  try {
    verifyBackup(path);
  } catch (error) {
    const problem = error instanceof StoreError ? error.problem : null;
    if (problem !== "damaged" && problem !== "foreign") throw error;
    throw new Refusal(
      "backup-damaged",
      "This backup is damaged and cannot be restored. Nothing was changed. Choose another backup.",
    );
  }
}

/** What is wrong with a file from elsewhere is nothing that is wrong with the data here. */
function brought(store: Store, path: string): string {
  try {
    return store.bringBackup(path);
  } catch (error) {
    const problem = error instanceof StoreError ? error.problem : null;
    if (problem !== "damaged" && problem !== "foreign" && problem !== "newer") throw error;
    throw new Refusal(
      "backup-unreadable",
      "This file is damaged, not one of Pebblechime's, or of a newer version. Nothing was changed.",
    );
  }
}

function toKept(
  store: Store,
  { path, kind, takenMs: wallMs }: Backup,
  clock: Pick<DesktopClock, "offsetMinutes">,
): KeptBackup {
  const offsetMinutes = clock.offsetMinutes();
  const taken = { day: localDay(wallMs, offsetMinutes), wallMs, offsetMinutes };
  return { name: basename(path), taken, kind, lost: lostBy(store, path) };
}

function lostBy(store: Store, path: string): KeptBackup["lost"] {
  try {
    return isProvenUseless(path) ? null : store.lostByRestoring(path);
  } catch (error) {
    if (error instanceof StoreError) return null;
    throw error;
  }
}
