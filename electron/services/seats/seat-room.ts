import type { CueCall, Session } from "../../../shared/api/sessions.ts";
import { asleepAfterMs } from "../../../shared/seats/limits.ts";
import type { FromSeat } from "../../../shared/seats/message.ts";
import type { SessionEvent } from "../../../shared/session/event.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { Joined, SeatLine, SeatRoom, SeatWord } from "../../seats/room.ts";
import type { SeatRow } from "../../store/seats/seats.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Conductor } from "../live/conductor.ts";
import type { SessionFollower } from "../live/conductor-desk.ts";
import { cueWindow } from "./cue-window.ts";
import { type Device, keptMarks, tellSeat, tellState } from "./device.ts";
import { type Pocket, pocketPage } from "./pocket.ts";
import type { SeatCodes } from "./seat-codes.ts";
import type { SeatMarks } from "./seat-marks.ts";
import { seatPoints } from "./seat-points.ts";
import { cuesStudents, nameOnLine, standingOf } from "./session-for-seats.ts";
import { shownCues } from "./shown-cues.ts";

/** Devices are told of changes this soon, in ms of real time: answers come in many at once. */
const tellAfterMs = 40;
/** A cue that a device has not shown so long after its moment was not shown there, in ms of real time. */
const showWithinMs = 3_000;
/** How much earlier or later than due a device may say that it showed a cue, in ms of real time. */
const beganWithinMs = 5_000;

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

type Answer = Extract<SeatWord, { readonly kind: "mark" | "away" }>;

/** What the teacher sees of one device. */
export interface DeviceStanding {
  readonly joined: boolean;
  readonly asleep: boolean;
  readonly carriers: Device["carriers"];
  readonly missed: readonly number[];
}

/**
 * The devices that have joined, and what they hear of the session: each its own next cue a moment ahead, its
 * own answers, and nothing of anybody else's. Nothing here is kept but answers, which go through the
 * conductor's door.
 */
export function seatRoom(options: SeatRoomOptions) {
  const { store, running, clock, changes, codes, marks } = options;
  const real = (ms: number): number => ms * clock.speed;
  const devices = new Map<string, Device>();
  const shown = shownCues();
  const window = cueWindow(running, options.report);
  const pocket = pocketPage(options, present);
  const points = seatPoints(store, clock);
  /** The session that devices follow; an ended one still takes its last answers. */
  let sessionId: string | null = running.liveId();
  let pausedUntilMs = Number.NEGATIVE_INFINITY;
  /** A session's facts never change. */
  let facts: Session | null = null;
  let left = false;
  /** The seats that joined in this session: whoever has none records in another way, and hears the class's cue. */
  let here = new Set<string>();

  /** Somebody came, went or fell asleep: the page is told, and seats show cues while one can. */
  function changed(): void {
    changes.publish("seats");
    const now = present();
    const isOpen = now !== null && now.state.status !== "ended";
    const canShow = [...devices.values()].some(
      ({ asleep, student }) => !asleep && cuedBy(student) !== null,
    );
    window.show(isOpen && canShow ? now.session.id : null);
  }

  function present(): { readonly session: Session; readonly state: SessionState } | null {
    if (sessionId === null) return null;
    if (facts?.id !== sessionId) facts = store.sessions.get(sessionId);
    return facts === null ? null : { session: facts, state: running.stateOf(facts.id) };
  }

  function studentOf({ studentId }: SeatRow) {
    const student = studentId === null ? null : store.students.get(studentId);
    return student === null || student.archived ? null : student;
  }

  /** The present session as a student of it is cued by it, or null. */
  function cuedBy(
    student: Device["student"],
  ): { session: Session; state: SessionState; id: string } | null {
    const now = present();
    if (now === null || student === null || !cuesStudents(now.session)) return null;
    if (now.session.groupId !== student.groupId || now.state.setAside.has(student.id)) return null;
    return { ...now, id: student.id };
  }

  function tellStanding(device: Device, balances = points.of(present()?.session ?? null)): void {
    const now = present();
    const { student } = device;
    const is = standingOf(now?.session ?? null, now?.state ?? null, student);
    const own = student === null ? undefined : balances?.get(student.id);
    const session = is === "untied" || is === "idle" || now === null ? null : now.session.id;
    tellState(device, {
      is,
      session: session === null ? null : nameOnLine(session),
      ...(own === undefined ? {} : { points: own }),
    });
  }

  /** Does something once what caused it is on the disk, unless the app is closed by then. */
  const after = (work: () => void) => queueMicrotask(() => (left ? undefined : work()));

  let telling = false;
  /** Tells all standings soon, once for whatever happens until then. */
  function tellSoon(): void {
    if (telling || (devices.size === 0 && !pocket.isJoined())) return;
    telling = true;
    clock.after(real(tellAfterMs), () => {
      telling = false;
      if (!left) tellAllStandings();
    });
  }

  function tellAllStandings(): void {
    const balances = points.of(present()?.session ?? null);
    for (const device of devices.values()) tellStanding(device, balances);
    pocket.tell();
  }

  /** Who is cued may change with what the log says of the session and of who is there. */
  const whoIsCued: readonly string[] = ["begun", "paused", "resumed", "ended", "set-aside", "back"];

  function tellKept(device: Device): void {
    const cued = cuedBy(device.student);
    if (cued === null) return;
    device.line.tell({
      kind: "kept",
      session: nameOnLine(cued.session.id),
      marks: keptMarks(cued.state, cued.id),
    });
  }

  function tellDue(device: Device, cue: number, dueMonotonicMs: number): void {
    const cued = cuedBy(device.student);
    if (cued === null) return;
    shown.told(cue, device.seat.id);
    const session = nameOnLine(cued.session.id);
    device.line.tell({ kind: "due", session, cue, atServer: dueMonotonicMs / clock.speed });
  }

  /** The cue that is called and still to come, for a device that joins just now. */
  let ahead: { readonly cue: number; readonly dueMonotonicMs: number } | null = null;

  function called(id: string, call: Extract<CueCall, { readonly cue: number }>): void {
    if (id !== sessionId) return;
    if (call.kind === "cancelled") {
      const told = new Set(shown.cancel(call.cue));
      if (ahead?.cue === call.cue) ahead = null;
      const session = nameOnLine(id);
      for (const [seatId, { line }] of devices) {
        if (told.has(seatId)) line.tell({ kind: "cancelled", session, cue: call.cue });
      }
      return;
    }
    const now = present();
    if (now === null || !cuesStudents(now.session)) return;
    const { cue, dueMonotonicMs } = call;
    shown.call(cue, dueMonotonicMs);
    ahead = { cue, dueMonotonicMs };
    for (const device of devices.values()) tellDue(device, cue, dueMonotonicMs);
    const left = dueMonotonicMs - clock.monotonicMs() + real(showWithinMs);
    clock.after(Math.max(0, left), () => noteMissed(id, cue));
  }

  /** Which tied seats did not show a cue that reached the class. */
  function noteMissed(id: string, cue: number): void {
    if (left) return;
    if (ahead?.cue === cue) ahead = null;
    const now = present();
    if (now === null || id !== sessionId || shown.due(cue) === null) return;
    if (now.state.cues.get(cue)?.standing !== "delivered") return;
    const there = new Map(
      store.students.list(now.session.groupId, false).map((student) => [student.id, student]),
    );
    for (const { id: seatId, studentId } of store.seats.list(now.session.groupId)) {
      const student = there.get(studentId ?? "") ?? null;
      const cued = cuedBy(student);
      if (cued === null || shown.hasShown(cue, seatId)) continue;
      shown.miss(cue, seatId);
      if (here.has(seatId)) leaveUnreached(cued.session.id, cued.id, cue, seatId);
    }
    changed();
  }

  /** The log says whom a cue did not reach, so that no mark is missed there. */
  function leaveUnreached(id: string, studentId: string, cue: number, seatId: string): void {
    const device = devices.get(seatId);
    const isSilent = device?.asleep || (device?.heardMonotonicMs ?? 0) < (shown.due(cue) ?? 0);
    const reason = device === undefined ? "seat-absent" : isSilent ? "seat-asleep" : "no-report";
    marks.keep(id, { kind: "leave-undelivered", studentId, cue, reason }, () => undefined);
  }

  function written(id: string, events: readonly SessionEvent[]): void {
    const begins = events.some(({ body }) => body.kind === "begun" || body.kind === "resumed");
    if (begins || running.liveId() === id) {
      if (sessionId !== id) {
        ahead = null;
        here = new Set(devices.keys());
      }
      sessionId = id;
      shown.begin(id);
    }
    if (id !== sessionId) return;
    for (const { body } of events) {
      if (body.kind === "delivered" || body.kind === "undelivered") settle(body.cue);
    }
    if (events.some(({ body }) => body.kind !== "announced")) {
      tellSoon();
    }
    if (events.some(({ body }) => whoIsCued.includes(body.kind))) after(changed);
  }

  /** Answers to a cue whose delivery is not in the log yet. */
  let held: { readonly device: Device; readonly word: Answer }[] = [];

  function settle(cue: number): void {
    const now = held.filter(({ word }) => word.cue === cue);
    held = held.filter(({ word }) => word.cue !== cue);
    for (const { device, word } of now) after(() => answer(device, word));
  }

  function answer(device: Device, word: Answer): void {
    const { session, cue } = word;
    const unkept = (why: "no-cue" | "too-late"): void =>
      device.line.tell({ kind: "unkept", session, cue, why });
    const cued = cuedBy(device.student);
    if (cued === null || nameOnLine(cued.session.id) !== session) {
      unkept("too-late");
      return;
    }
    // Of cues before this run of the app nobody knows any more which seat was told.
    if (shown.due(cue) !== null && !shown.wasTold(cue, device.seat.id)) {
      unkept("no-cue");
      return;
    }
    const standing = cued.state.cues.get(cue)?.standing;
    if (standing === undefined || standing === "undelivered") {
      unkept("no-cue");
      return;
    }
    if (standing === "announced") {
      held = held.filter((each) => each.device !== device || each.word.cue !== cue);
      held.push({ device, word });
      return;
    }
    const { id: studentId } = cued;
    if (word.kind === "away") {
      const { away } = word;
      marks.keep(cued.session.id, { kind: "say-away", studentId, cue, away }, () => undefined);
      return;
    }
    const { value } = word;
    const mark = { kind: "mark", studentId, cue, value, way: "seat" } as const;
    marks.keep(cued.session.id, mark, (outcome) => {
      if (outcome === "kept") {
        const kept = keptMarks(running.stateOf(cued.session.id), cued.id);
        const own = kept.filter((each) => each.cue === cue);
        // Taking back what was never kept leaves no trace in the log.
        const none = [{ cue, value: "none" as const, late: false }];
        device.line.tell({ kind: "kept", session, marks: own.length > 0 ? own : none });
      } else if (outcome !== "failed") {
        unkept(outcome.refused === "cue-unknown" ? "no-cue" : "too-late");
      }
    });
  }

  function hear(device: Device, word: SeatWord): boolean {
    device.heardMonotonicMs = clock.monotonicMs();
    if (device.asleep) {
      device.asleep = false;
      changed();
    }
    switch (word.kind) {
      case "alive":
        return true;
      case "clock":
        device.line.tell({ kind: "clock", t: word.t, at: clock.monotonicMs() / clock.speed });
        return true;
      case "ready":
        device.carriers = word.carriers;
        changed();
        return true;
      case "began":
        began(device, word);
        return true;
      case "mark":
      case "away":
        answer(device, word);
        return true;
      case "give":
      case "take":
        return false;
    }
  }

  function began(device: Device, { session, cue, at }: Extract<FromSeat, { kind: "began" }>): void {
    const due = shown.due(cue);
    if (due === null || sessionId === null || nameOnLine(sessionId) !== session) return;
    if (Math.abs(at - due / clock.speed) > beganWithinMs) return;
    shown.began(cue, device.seat.id, at);
    window.shown(cue, at * clock.speed);
  }

  function joinSeat(seat: SeatRow, line: SeatLine): Joined {
    devices.get(seat.id)?.line.close("elsewhere");
    const heardMonotonicMs = clock.monotonicMs();
    const device: Device = {
      line,
      seat,
      student: studentOf(seat),
      carriers: ["sign"],
      heardMonotonicMs,
      asleep: false,
      told: "",
    };
    devices.set(seat.id, device);
    here.add(seat.id);
    tellSeat(device);
    tellStanding(device);
    tellKept(device);
    // One whose moment has passed asked somebody else: what was a minute ago is no momentary record.
    if (ahead !== null && ahead.dueMonotonicMs > clock.monotonicMs()) {
      tellDue(device, ahead.cue, ahead.dueMonotonicMs);
    }
    changed();
    return {
      hear: (word) => hear(device, word),
      gone() {
        if (devices.get(seat.id) !== device) return;
        devices.delete(seat.id);
        changed();
      },
    };
  }

  function free(seatId: string): void {
    here.delete(seatId);
    const device = devices.get(seatId);
    if (device === undefined) return;
    device.line.tell({ kind: "freed" });
    device.line.close("closed");
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
      pausedUntilMs = clock.monotonicMs() + real(ms);
      changed();
    },
  };

  const follower: SessionFollower = { called, written };
  running.follow(follower);

  return {
    room,
    free,
    pocketCode: pocket.code,

    /** Seats are opened: the adult's pocket page has a fresh code. */
    opened: pocket.renew,

    /** Notices devices from which nothing was heard. */
    look(): void {
      const since = clock.monotonicMs() - real(asleepAfterMs);
      for (const device of devices.values()) {
        if (device.asleep || device.heardMonotonicMs > since) continue;
        device.asleep = true;
        changed();
      }
    },

    /** Something about seats or students changed: who is gone is freed, the others are told. */
    lookAgain(): void {
      facts = null;
      for (const [id, device] of devices) {
        const seat = store.seats.get(id);
        if (seat === null || seat.code === null) {
          free(id);
          continue;
        }
        const before = device.seat;
        device.seat = seat;
        device.student = studentOf(seat);
        if (before.language !== seat.language || before.look !== seat.look) tellSeat(device);
        if (before.studentId !== seat.studentId) {
          device.told = "";
          tellStanding(device);
          tellKept(device);
        } else tellStanding(device);
      }
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
