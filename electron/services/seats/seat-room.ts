import type { CueCall, Session } from "../../../shared/api/sessions.ts";
import { asleepAfterMs } from "../../../shared/seats/limits.ts";
import type { FromSeat } from "../../../shared/seats/message.ts";
import type { SessionEvent, UndeliveredReason } from "../../../shared/session/event.ts";
import { cuesOf, type SessionState } from "../../../shared/session/state.ts";
import type { Joined, SeatLine, SeatRoom, SeatWord } from "../../seats/room.ts";
import type { SeatRow } from "../../store/seats/seats.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Conductor } from "../live/conductor.ts";
import type { OwnCueCall, SessionFollower } from "../live/conductor-desk.ts";
import { cueWindow } from "./cue-window.ts";
import { type Device, keptMarks, tellSeat, tellState } from "./device.ts";
import { type Pocket, pocketPage } from "./pocket.ts";
import type { SeatCodes } from "./seat-codes.ts";
import type { SeatMarks } from "./seat-marks.ts";
import { seatPoints } from "./seat-points.ts";
import { cuesStudents, nameOnLine, standingOf } from "./session-for-seats.ts";
import { cueName, shownCues } from "./shown-cues.ts";

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
    // A student's own cue is no sign for the class.
    window.show(isOpen && canShow && !now.state.isOwn ? now.session.id : null);
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
    const came = device.cameAfter !== null && device.cameAfter === now?.session.id;
    const is = came ? "idle" : standingOf(now?.session ?? null, now?.state ?? null, student);
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

  /** The cue of this number as a device's student has it. */
  const nameFor = (device: Device, cue: number): string =>
    cueName(cue, present()?.state.isOwn ? (device.student?.id ?? "") : null);

  function tellDue(device: Device, cue: number, dueMonotonicMs: number): void {
    const cued = cuedBy(device.student);
    if (cued === null) return;
    shown.told(nameFor(device, cue), device.seat.id);
    const session = nameOnLine(cued.session.id);
    device.line.tell({ kind: "due", session, cue, atServer: dueMonotonicMs / clock.speed });
  }

  /** The cues that are called and still to come, for a device that joins just now: by student, or the class's. */
  const ahead = new Map<string | null, { readonly cue: number; readonly dueMonotonicMs: number }>();

  function called(id: string, call: Extract<CueCall, { readonly cue: number }>): void {
    if (id !== sessionId) return;
    if (call.kind === "cancelled") {
      takeBack(id, call.cue, null);
      return;
    }
    const now = present();
    if (now === null || !cuesStudents(now.session)) return;
    const { cue, dueMonotonicMs } = call;
    shown.call(cueName(cue, null), dueMonotonicMs);
    ahead.set(null, { cue, dueMonotonicMs });
    for (const device of devices.values()) tellDue(device, cue, dueMonotonicMs);
    const left = dueMonotonicMs - clock.monotonicMs() + real(showWithinMs);
    clock.after(Math.max(0, left), () => noteMissed(id, cue));
  }

  function takeBack(id: string, cue: number, owner: string | null): void {
    const told = new Set(shown.cancel(cueName(cue, owner)));
    if (ahead.get(owner)?.cue === cue) ahead.delete(owner);
    for (const [seatId, { line }] of devices) {
      if (told.has(seatId)) line.tell({ kind: "cancelled", session: nameOnLine(id), cue });
    }
  }

  /** A student's own cue: their device hears of it, and nobody else. */
  function calledOwn(id: string, call: OwnCueCall): void {
    if (id !== sessionId) return;
    const { studentId, cue } = call;
    if (call.kind === "cancelled") {
      takeBack(id, cue, studentId);
      return;
    }
    const { dueMonotonicMs } = call;
    shown.call(cueName(cue, studentId), dueMonotonicMs);
    ahead.set(studentId, { cue, dueMonotonicMs });
    for (const device of devices.values()) {
      if (device.student?.id === studentId) tellDue(device, cue, dueMonotonicMs);
    }
  }

  /** Why no device said that it showed a student's own cue, for the log; the teacher sees which seat it was. */
  function unshown(_id: string, studentId: string, cue: number): UndeliveredReason {
    if (ahead.get(studentId)?.cue === cue) ahead.delete(studentId);
    const device = [...devices.values()].find(({ student }) => student?.id === studentId);
    if (device === undefined) return "seat-absent";
    shown.miss(cue, device.seat.id);
    after(changed);
    return whySilent(device, shown.due(cueName(cue, studentId)));
  }

  /** Which tied seats did not show a cue that reached the class. */
  function noteMissed(id: string, cue: number): void {
    if (left) return;
    if (ahead.get(null)?.cue === cue) ahead.delete(null);
    const now = present();
    const name = cueName(cue, null);
    if (now === null || id !== sessionId || shown.due(name) === null) return;
    if (now.state.cues.get(cue)?.standing !== "delivered") return;
    const there = new Map(
      store.students.list(now.session.groupId, false).map((student) => [student.id, student]),
    );
    for (const { id: seatId, studentId } of store.seats.list(now.session.groupId)) {
      const student = there.get(studentId ?? "") ?? null;
      const cued = cuedBy(student);
      if (cued === null || shown.hasShown(name, seatId)) continue;
      shown.miss(cue, seatId);
      if (here.has(seatId)) leaveUnreached(cued.session.id, cued.id, cue, seatId);
    }
    changed();
  }

  /** The log says whom a cue did not reach, so that no mark is missed there. */
  function leaveUnreached(id: string, studentId: string, cue: number, seatId: string): void {
    const device = devices.get(seatId);
    const due = shown.due(cueName(cue, null));
    const reason = device === undefined ? "seat-absent" : whySilent(device, due);
    marks.keep(id, { kind: "leave-undelivered", studentId, cue, reason }, () => undefined);
  }

  const whySilent = ({ asleep, heardMonotonicMs }: Device, due: number | null) =>
    asleep || heardMonotonicMs < (due ?? 0) ? "seat-asleep" : "no-report";

  function written(id: string, events: readonly SessionEvent[]): void {
    const begins = events.some(({ body }) => body.kind === "begun" || body.kind === "resumed");
    if (begins || running.liveId() === id) {
      if (sessionId !== id) {
        ahead.clear();
        here = new Set(devices.keys());
      }
      sessionId = id;
      shown.begin(id);
    }
    if (id !== sessionId) return;
    for (const { body } of events) {
      if (body.kind === "delivered" || body.kind === "undelivered")
        settle(body.cue, body.studentId);
    }
    if (events.some(({ body }) => body.kind !== "announced")) {
      tellSoon();
    }
    if (events.some(({ body }) => whoIsCued.includes(body.kind))) after(changed);
  }

  /** Answers to a cue whose delivery is not in the log yet. */
  let held: { readonly device: Device; readonly word: Answer }[] = [];

  function settle(cue: number, owner: string | undefined): void {
    const isIt = ({ device, word }: (typeof held)[number]) =>
      word.cue === cue && (owner === undefined || device.student?.id === owner);
    const now = held.filter(isIt);
    held = held.filter((each) => !isIt(each));
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
    const name = nameFor(device, cue);
    if (shown.due(name) !== null && !shown.wasTold(name, device.seat.id)) {
      unkept("no-cue");
      return;
    }
    const standing = cuesOf(cued.state, cued.id).get(cue)?.standing;
    // Of an own cue in doubt the answer says that it was shown: the session's rules decide.
    if (standing === undefined || (standing === "undelivered" && !cued.state.isOwn)) {
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
      marks.keep(cued.session.id, { kind: "say-away", studentId, cue, away }, (outcome) => {
        const none = [{ cue, value: "none" as const, late: false }];
        if (outcome === "kept") device.line.tell({ kind: "kept", session, marks: none });
        else if (outcome !== "failed") unkept("too-late");
      });
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
    const name = nameFor(device, cue);
    const due = shown.due(name);
    if (due === null || sessionId === null || nameOnLine(sessionId) !== session) return;
    if (Math.abs(at - due / clock.speed) > beganWithinMs) return;
    try {
      noteShown(device, name, cue, at);
    } catch (error) {
      // A full disk: without the word the cue counts as not shown, and an answer says that it was.
      options.report(error);
    }
  }

  function noteShown(device: Device, name: string, cue: number, at: number): void {
    if (present()?.state.isOwn) {
      const cued = cuedBy(device.student);
      if (cued === null || !shown.wasTold(name, device.seat.id)) return;
      shown.began(name, device.seat.id, at);
      const beganMonotonicMs = at * clock.speed;
      running.ownCueShown(cued.session.id, { studentId: cued.id, cue, beganMonotonicMs });
      return;
    }
    shown.began(name, device.seat.id, at);
    window.shown(cue, at * clock.speed);
  }

  function joinSeat(seat: SeatRow, line: SeatLine): Joined {
    devices.get(seat.id)?.line.close("elsewhere");
    const heardMonotonicMs = clock.monotonicMs();
    const now = present();
    const isNew = !here.has(seat.id) && now?.state.status === "ended";
    const device: Device = {
      line,
      seat,
      student: studentOf(seat),
      carriers: ["sign"],
      heardMonotonicMs,
      asleep: false,
      cameAfter: isNew ? now.session.id : null,
      told: "",
    };
    devices.set(seat.id, device);
    here.add(seat.id);
    tellSeat(device);
    tellStanding(device);
    tellKept(device);
    // One whose moment has passed asked somebody else: what was a minute ago is no momentary record.
    const next = ahead.get(present()?.state.isOwn ? (device.student?.id ?? "") : null);
    if (next !== undefined && next.dueMonotonicMs > clock.monotonicMs()) {
      tellDue(device, next.cue, next.dueMonotonicMs);
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

  const follower: SessionFollower = { called, calledOwn, unshown, written };
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
