import { asleepAfterMs } from "../../../shared/seats/limits.ts";
import type { SeatRoom } from "../../seats/room.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Conductor } from "../live/conductor.ts";
import { calledCues } from "./called-cues.ts";
import { cueWindow } from "./cue-window.ts";
import type { Device, DeviceStanding } from "./device.ts";
import { seatJoining } from "./joining.ts";
import { lookAgainAt } from "./look-again.ts";
import { missedCues } from "./missed-cues.ts";
import { type Pocket, pocketPage } from "./pocket.ts";
import { roomNow } from "./room-now.ts";
import { seatAnswers } from "./seat-answers.ts";
import type { SeatCodes } from "./seat-codes.ts";
import type { SeatMarks } from "./seat-marks.ts";
import { seatPoints } from "./seat-points.ts";
import { seatsFollower } from "./seats-follower.ts";
import { shownCues } from "./shown-cues.ts";
import { shownHere } from "./shown-here.ts";
import { seatTelling } from "./telling.ts";

export interface SeatRoomOptions {
  readonly store: Store;
  readonly running: Conductor;
  readonly clock: DesktopClock;
  readonly changes: Changes;
  readonly codes: SeatCodes;
  readonly marks: SeatMarks;
  readonly givePoints: Pocket;
  /** Names may go to the adult's pocket page: over an encrypted line only, when the teacher wants it. */
  readonly mayName: () => boolean;
  readonly report: (error: unknown) => void;
}

/**
 * The devices that have joined, and what they hear of the session: each its own next cue a moment ahead, its
 * own answers, and nothing of anybody else's. Nothing here is kept but answers, which go through the
 * conductor's door.
 */
export function seatRoom(options: SeatRoomOptions) {
  const { store, running, clock, changes, codes, marks } = options;
  const devices = new Map<string, Device>();
  let pausedUntilMs = Number.NEGATIVE_INFINITY;
  let left = false;
  const now = roomNow(store, running);
  const shown = shownCues();
  const window = cueWindow(running, options.report);
  const pocket = pocketPage(options, now.present);
  const points = seatPoints(store, clock);
  /** What every part of the room may use; each says what it takes of it. */
  const common = { ...options, devices, now, shown, changed, after, isGone: () => left };
  const telling = seatTelling({ ...common, points, pocket });
  const missed = missedCues(common);
  const cues = calledCues({ ...common, passed: missed.noteMissed });
  const answers = seatAnswers(common);
  const { began } = shownHere({ ...common, window });
  const { joinSeat, free } = seatJoining({ ...common, telling, cues, answers, began });
  running.follow(seatsFollower({ ...common, telling, cues, missed, answers }));

  /** Does something once what caused it is on the disk, unless the app is closed by then. */
  function after(work: () => void): void {
    queueMicrotask(() => (left ? undefined : work()));
  }

  /** Somebody came, went or fell asleep: the page is told, and seats show cues while one can. */
  function changed(): void {
    changes.publish("seats");
    const present = now.present();
    const isOpen = present !== null && present.state.status !== "ended";
    const canShow = [...devices.values()].some(
      ({ asleep, student }) => !asleep && now.cuedBy(student) !== null,
    );
    // A student's own cue is no sign for the class.
    window.show(isOpen && canShow && !present.state.isOwn ? present.session.id : null);
  }

  const room: SeatRoom = {
    async join(code, line) {
      if (pocket.isCode(code)) return pocket.join(line);
      const hashed = await codes.hash(code);
      const seat = store.seats.byCode(hashed);
      if (seat === null) return null;
      codes.remember(code, hashed);
      return joinSeat(seat, line);
    },
    joiningPaused(ms) {
      pausedUntilMs = clock.monotonicMs() + ms * clock.speed;
      changed();
    },
  };

  return {
    room,
    free,
    pocketCode: pocket.code,

    /** Seats are opened: the adult's pocket page has a fresh code. */
    opened: pocket.renew,

    /** Notices devices from which nothing was heard. */
    look(): void {
      const since = clock.monotonicMs() - asleepAfterMs * clock.speed;
      for (const device of devices.values()) {
        if (device.asleep || device.heardMonotonicMs > since) continue;
        device.asleep = true;
        changed();
      }
    },

    /** Something about seats or students changed: who is gone is freed, the others are told. */
    lookAgain(): void {
      now.forgetFacts();
      lookAgainAt({ store, devices, now, telling, free });
      pocket.tell();
      changed();
    },

    /** Every line is closed. */
    closeAll(): void {
      marks.flush();
      window.show(null);
      for (const { line } of [...devices.values()]) line.close("closed");
      pocket.close();
    },

    /** The app closes: nothing is looked up any more. */
    leave(): void {
      left = true;
    },

    isJoiningPaused: () => clock.monotonicMs() < pausedUntilMs,

    standing(seatId: string): DeviceStanding {
      const device = devices.get(seatId);
      return {
        joined: device !== undefined,
        asleep: device?.asleep ?? false,
        carriers: device?.carriers ?? [],
        missed: shown.missedBy(seatId),
      };
    },
  };
}
export type SeatRoomDesk = ReturnType<typeof seatRoom>;
