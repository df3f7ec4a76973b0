import type { SeatsState } from "../../../shared/api/seats.ts";
import { CertificateError } from "../../seats/certificate.ts";
import type { SeatsServer } from "../../seats/server.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { Cancel, DesktopClock } from "../base/clock.ts";
import { Refusal } from "../base/refusal.ts";
import type { Conductor } from "../live/conductor.ts";
import { pausingGapMs, sleepWatch } from "../live/sleep-watch.ts";
import { minutesOfDay, timeOf } from "./closing-time.ts";
import { openOrRefuse } from "./open-or-refuse.ts";
import { schoolDay } from "./school-day.ts";
import { seatCertificate } from "./seat-certificate.ts";
import type { SeatRoomDesk } from "./seat-room.ts";

/** How a host opens the seats' server. */
export interface SeatsHosting {
  /** The built page for devices (dist/seats). */
  readonly folder: string;
  readonly port: number;
  /** PEM file for an encrypted line, or null. */
  readonly certificateFile: string | null;
  /** Devices that one address may connect. */
  readonly socketsAnAddress: number;
}

/** How often sleeping devices and the closing time are looked at, in ms of real time. */
const lookEveryMs = 1_000;

type ClosedBecause = NonNullable<SeatsState["closedBecause"]>;

/**
 * Opens and closes seats: by the teacher's press; closed at the end of the school day once no session runs,
 * when the computer sleeps, and when it is locked while no session runs: at once, or when the session ends
 * that ran on behind the lock. After a restart on the same day they open again, unless the teacher had closed
 * them.
 */
export function seatsOpening(
  store: Store,
  running: Conductor,
  desk: SeatRoomDesk,
  clock: DesktopClock,
  changes: Changes,
  hosting: SeatsHosting,
  report: (error: unknown) => void,
) {
  const certificate = seatCertificate(hosting.certificateFile, clock);
  const day = schoolDay(store, clock);
  let server: SeatsServer | null = null;
  let closedBecause: ClosedBecause = "never";
  let watch = sleepWatch(clock, lookEveryMs);
  let isLocked = false;
  /** When seats close, in minutes of local time since 1970. */
  let until = 0;
  let cancel: Cancel = () => {};
  const inTurn = oneAfterTheOther();

  async function openNow(): Promise<void> {
    if (server !== null) return;
    if (!store.settings.get().seats) {
      throw new Refusal("seats-off", "Switch seats on in Settings first.");
    }
    refuseUnsound(certificate, changes);
    const { folder, port, socketsAnAddress } = hosting;
    server = await openOrRefuse(
      { room: desk.room, folder, port, certificate: certificate.now(), socketsAnAddress },
      report,
    );
    desk.opened();
    watch = sleepWatch(clock, lookEveryMs);
    until = day.closing();
    look();
    changes.publish("seats");
  }

  async function closeNow(because: ClosedBecause): Promise<void> {
    const open = server;
    if (open === null) return;
    server = null;
    closedBecause = because;
    cancel();
    desk.closeAll();
    await open.close();
    changes.publish("seats");
  }

  /** Nobody waits for it. */
  const closeFor = (because: ClosedBecause): void =>
    void inTurn(() => closeNow(because)).catch(report);

  /** Why seats are to close once no session runs; null while they may stay open. */
  function dueNow(): ClosedBecause | null {
    if (isLocked) return "locked";
    return day.now() >= until ? "day" : null;
  }

  function look(): void {
    cancel();
    if (server === null) return;
    desk.look();
    // Not every system says that it slept, and a browser's host hears of nothing.
    const gap = watch.look();
    if (gap !== null && gap.realMs > pausingGapMs) {
      closeFor("sleep");
      return;
    }
    const due = running.liveId() === null ? dueNow() : null;
    if (due === null) cancel = clock.after(lookEveryMs * clock.speed, look);
    else closeFor(due);
  }

  return {
    async open(): Promise<void> {
      // Whoever opens seats sits at an open screen, whatever the system said of it.
      isLocked = false;
      store.seats.saveNote("wantedDay", day.today());
      await inTurn(openNow);
    },

    async close(): Promise<void> {
      store.seats.saveNote("wantedDay", null);
      await inTurn(() => closeNow("teacher"));
    },

    /** Seats were open when the app went, earlier today: open them again. */
    openAgain(): void {
      if (!store.settings.get().seats || store.seats.note("wantedDay") !== day.today()) return;
      if (day.isOver()) return;
      inTurn(openNow).catch(report);
    },

    /** The computer goes to sleep: on waking it may be in another network, so the teacher opens them anew. */
    slept: (): void => closeFor("sleep"),

    /** While a session runs nobody is cut off: seats close when it ends, if the screen is still locked then. */
    locked(): void {
      isLocked = true;
      look();
    },

    unlocked(): void {
      isLocked = false;
    },

    /** Switched off in Settings, or the app goes; `wantedDay` is left as it is. */
    stop: (): Promise<void> => inTurn(() => closeNow("teacher")),

    isOpen: () => server !== null,
    isSecure: certificate.isSecure,
    certificateProblem: certificate.problem,
    closedBecause: () => (server === null ? closedBecause : null),
    until: () => (server === null ? null : timeOf(minutesOfDay(until))),

    /** Where devices find the page; before seats are opened, where they will. */
    addresses: (): string[] => certificate.addresses(server?.port ?? hosting.port),
  };
}
export type SeatsOpening = ReturnType<typeof seatsOpening>;

/** Never without a sound certificate: what was to be encrypted goes over no open line. */
function refuseUnsound(certificate: ReturnType<typeof seatCertificate>, changes: Changes): void {
  certificate.look();
  const problem = certificate.problem();
  if (problem === null) return;
  changes.publish("seats");
  throw new Refusal("seats-certificate", new CertificateError(problem).message, { problem });
}

/**
 * Does works one after the other, as a press that closes waits for the one that opens; each answers with its
 * own end, and one that fails stops no later one.
 */
function oneAfterTheOther() {
  let last: Promise<void> = Promise.resolve();
  return (work: () => Promise<void>): Promise<void> => {
    const turn = last.then(work);
    last = turn.catch(() => undefined);
    return turn;
  };
}
