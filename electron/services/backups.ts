import type { BackupCare } from "../../shared/api/care.ts";
import { localDay } from "../../shared/calendar/local-day.ts";
import { StoreError } from "../store/file/store-error.ts";
import type { Store } from "../store/store.ts";
import type { Cancel, DesktopClock } from "./base/clock.ts";

/** In ms of real time. The first look waits until the pages are up. */
const firstLookMs = 60_000;
const lookMs = 3_600_000;
/** After a look that a session or a failure stood in the way of. */
const againMs = 60_000;
/** After a session, when its last marks have been pressed or nearly so. */
const afterSessionMs = 5_000;

/** The daily backup of a run of the app, and what a screen says about it. */
export interface DailyBackups {
  /** Looks from now on. */
  begin(): void;
  /** A session has ended: a good moment to look. */
  sessionEnded(): void;
  care(): BackupCare;
  /** Looks a last time, and no more. */
  close(): void;
}

export interface BackupOptions {
  readonly store: Pick<Store, "backUpIfDue" | "lastBackupMs">;
  readonly clock: DesktopClock;
  /** Whether no session is open in a class, which a backup could hold up. */
  readonly isQuiet: () => boolean;
  /** Told when what `care` says may have changed. */
  readonly onCare: () => void;
  readonly report: (error: unknown) => void;
}

/** Looks now and then whether the daily backup is due, never while a session is open in a class. */
export function dailyBackups(options: BackupOptions): DailyBackups {
  const { store, clock, isQuiet, onCare, report } = options;
  let cancel: Cancel = () => {};
  let problem: BackupCare["problem"] = null;

  function take(): boolean {
    const before = problem;
    let path: string | null = null;
    try {
      path = store.backUpIfDue();
      problem = null;
    } catch (error) {
      problem = problemOf(error);
      // It is tried again every minute; once is enough to say so.
      if (problem !== before) report(error);
    }
    if (path !== null || problem !== before) onCare();
    return problem === null;
  }

  function lookIn(realMs: number): void {
    cancel();
    cancel = clock.after(realMs * clock.speed, () =>
      lookIn(isQuiet() && take() ? lookMs : againMs),
    );
  }

  return {
    begin: () => lookIn(firstLookMs),
    sessionEnded: () => lookIn(afterSessionMs),
    care() {
      const wallMs = store.lastBackupMs();
      if (wallMs === null) return { last: null, problem };
      const offsetMinutes = clock.offsetMinutes();
      return { last: { day: localDay(wallMs, offsetMinutes), wallMs, offsetMinutes }, problem };
    },
    close() {
      cancel();
      take();
    },
  };
}

function problemOf(error: unknown): NonNullable<BackupCare["problem"]> {
  if (!(error instanceof StoreError)) return "failed";
  const { problem } = error;
  return problem === "full" || problem === "read-only" || problem === "damaged"
    ? problem
    : "failed";
}
