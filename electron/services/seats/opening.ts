import type { SeatsState } from "../../../shared/api/seats.ts";
import { localDay } from "../../../shared/calendar/local-day.ts";
import type { CertificateProblem } from "../../../shared/seats/certificate-problems.ts";
import { type Certificate, CertificateError, readCertificate } from "../../seats/certificate.ts";
import { inLink, reachableAddresses } from "../../seats/own-addresses.ts";
import { openSeatsServer, type SeatsServer } from "../../seats/server.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { Cancel, DesktopClock } from "../base/clock.ts";
import { Refusal } from "../base/refusal.ts";
import type { Conductor } from "../live/conductor.ts";
import { pausingGapMs, sleepWatch } from "../live/sleep-watch.ts";
import { closingMinutes, localMinutes, minutesOfDay, timeOf } from "./closing-time.ts";
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
 * when the computer sleeps, and when it is locked while no session runs. After a restart on the same day
 * they open again, unless the teacher had closed them.
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
  let server: SeatsServer | null = null;
  let closedBecause: ClosedBecause = "never";
  let watch = sleepWatch(clock, lookEveryMs);
  /** When seats close, in minutes of local time since 1970. */
  let until = 0;
  let cancel: Cancel = () => {};
  let certificate: Certificate | null = null;
  let certificateProblem: CertificateProblem | null = null;
  /** One after the other: a press that closes waits for the one that opens. */
  let last: Promise<void> = Promise.resolve();

  const today = () => localDay(clock.wallMs(), clock.offsetMinutes());
  const localNow = () => localMinutes(clock.wallMs(), clock.offsetMinutes());
  const minutesNow = () => minutesOfDay(localNow());

  function inTurn(work: () => Promise<void>): Promise<void> {
    const turn = last.then(work);
    last = turn.catch(() => undefined);
    return turn;
  }

  function ends(): string[] {
    return store.groups
      .list(false)
      .flatMap(({ id }) => store.privileges.periods(id))
      .flatMap(({ ends: end }) => (end === null ? [] : [end]));
  }

  /** Reads the certificate anew, so that a file that was renewed needs no restart. */
  function lookAtCertificate(): void {
    if (hosting.certificateFile === null) return;
    certificate = null;
    certificateProblem = null;
    try {
      certificate = readCertificate(hosting.certificateFile, clock.wallMs());
    } catch (error) {
      if (!(error instanceof CertificateError)) throw error;
      certificateProblem = error.problem;
    }
  }
  lookAtCertificate();

  async function openNow(): Promise<void> {
    if (server !== null) return;
    if (!store.settings.get().seats) {
      throw new Refusal("seats-off", "Switch seats on in Settings first.");
    }
    lookAtCertificate();
    // Never without: what was to be encrypted goes over no open line.
    if (certificateProblem !== null) {
      changes.publish("seats");
      throw new Refusal("seats-certificate", new CertificateError(certificateProblem).message, {
        problem: certificateProblem,
      });
    }
    const { folder, port, socketsAnAddress } = hosting;
    try {
      server = await openSeatsServer({
        room: desk.room,
        folder,
        port,
        certificate,
        socketsAnAddress,
      });
    } catch (error) {
      if (error instanceof Error && "code" in error && error.code === "EADDRINUSE") {
        throw new Refusal(
          "seats-port-taken",
          `Another program uses port ${port} of this computer. Close it, or restart the computer.`,
          { port },
        );
      }
      report(error);
      throw new Refusal(
        "seats-failed",
        "Seats could not be opened. Restart Pebblechime and try again.",
      );
    }
    desk.opened();
    watch = sleepWatch(clock, lookEveryMs);
    until = localNow() + closingMinutes(ends(), minutesNow()) - minutesNow();
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

  function look(): void {
    cancel();
    if (server === null) return;
    desk.look();
    // Not every system says that it slept, and a browser's host hears of nothing.
    const gap = watch.look();
    if (gap !== null && gap.realMs > pausingGapMs) {
      void inTurn(() => closeNow("sleep")).catch(report);
      return;
    }
    if (localNow() >= until && running.liveId() === null) {
      void inTurn(() => closeNow("day")).catch(report);
      return;
    }
    cancel = clock.after(lookEveryMs * clock.speed, look);
  }

  return {
    async open(): Promise<void> {
      store.seats.saveNote("wantedDay", today());
      await inTurn(openNow);
    },

    async close(): Promise<void> {
      store.seats.saveNote("wantedDay", null);
      await inTurn(() => closeNow("teacher"));
    },

    /** Seats were open when the app went, earlier today: open them again. */
    openAgain(): void {
      if (!store.settings.get().seats || store.seats.note("wantedDay") !== today()) return;
      if (minutesNow() >= closingMinutes(ends(), 0)) return;
      inTurn(openNow).catch(report);
    },

    /** The computer goes to sleep: on waking it may be in another network, so the teacher opens them anew. */
    slept(): void {
      void inTurn(() => closeNow("sleep")).catch(report);
    },

    locked(): void {
      if (running.liveId() !== null) return;
      void inTurn(() => closeNow("locked")).catch(report);
    },

    /** Switched off in Settings, or the app goes; `wantedDay` is left as it is. */
    stop: (): Promise<void> => inTurn(() => closeNow("teacher")),

    isOpen: () => server !== null,
    isSecure: () => hosting.certificateFile !== null,
    certificateProblem: () => certificateProblem,
    closedBecause: () => (server === null ? closedBecause : null),
    until: () => (server === null ? null : timeOf(minutesOfDay(until))),

    /** Where devices find the page; before seats are opened, where they will. */
    addresses(): string[] {
      const port = server?.port ?? hosting.port;
      const own = reachableAddresses();
      if (hosting.certificateFile === null) {
        return own.map((address) => `http://${inLink(address)}:${port}`);
      }
      // Devices trust the certificate under its own names alone.
      const names = certificate?.names ?? [];
      const likeliest = names.toSorted(
        (one, other) => Number(own.includes(other)) - Number(own.includes(one)),
      );
      return likeliest.map((name) => `https://${inLink(name)}:${port}`);
    },
  };
}
export type SeatsOpening = ReturnType<typeof seatsOpening>;
