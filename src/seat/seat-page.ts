import type { SeatStanding, ToSeat } from "../../shared/seats/message.ts";
import { carriersNow, carryCue, followCarriers } from "./carriers.ts";
import { classClock } from "./class-clock.ts";
import { comingCue } from "./coming-cue.ts";
import { ownAnswer } from "./own-answer.ts";
import { seatBeat } from "./seat-beat.ts";
import { seatFace } from "./seat-face.ts";
import type { SeatSocket } from "./seat-line.ts";
import type { ShownCue, shownCue } from "./shown-cue.ts";
import { stayAwake } from "./stay-awake.ts";
import type { waitingMarks } from "./waiting-marks.ts";

/** A cue that could not be shown this soon after its moment is not shown any more, in ms. */
const showWithinMs = 3_000;

type Heard<Kind extends ToSeat["kind"]> = Extract<ToSeat, { readonly kind: Kind }>;

/** One seat, from joining on: shows its cues and hands in its answers. */
export function seatPage(
  line: SeatSocket,
  waiting: ReturnType<typeof waitingMarks>,
  asked: ReturnType<typeof shownCue>,
  first: Heard<"seat">,
) {
  let seat = first;
  let standing: SeatStanding = "idle";
  let points: number | null = null;
  let isOffline = false;
  /** By what it said last that it can carry a cue. */
  let saidReady = "";
  const clock = classClock();
  const awake = stayAwake();
  const own = ownAnswer({ line, waiting, asked, isOffline: () => isOffline, wentOffline, draw });
  const { sayAgain } = own;
  const coming = comingCue(clock, showCue);
  const beat = seatBeat({ line, clock, sayAgain, wake: awake.again });
  const face = seatFace({ mark: own.give, away: () => own.give("away"), undo: own.undo });

  const unfollowCarriers = followCarriers(sayReady);

  function sayReady(): void {
    const carriers = carriersNow();
    const now = carriers.join();
    if (now !== saidReady && line.send({ kind: "ready", carriers })) saidReady = now;
  }

  function wentOffline(): void {
    isOffline = true;
  }

  function draw(): void {
    const { number, look } = seat;
    face.draw({ number, look, standing, isOffline, points, ...own.view() });
  }

  /** Shows a cue, if its moment has not passed and somebody can see it. */
  function showCue(next: ShownCue, atServer: number): void {
    const now = clock.now();
    if (now === null || now - atServer > showWithinMs || document.hidden) return;
    own.ask(next);
    const by = carryCue();
    draw();
    line.send({ kind: "began", ...next, by, at: now });
  }

  function state(told: Heard<"state">): void {
    standing = told.is;
    awake.want(standing === "running" || standing === "paused");
    points = told.points === undefined ? null : told.points;
    own.follow(told.session, standing !== "idle" && standing !== "untied");
    draw();
  }

  function greet(): void {
    isOffline = false;
    beat.askAnew();
    saidReady = "";
    sayReady();
    sayAgain();
    draw();
  }
  greet();

  return {
    /** The line holds again. */
    again(told: Heard<"seat">): void {
      seat = told;
      greet();
    },
    lost(): void {
      isOffline = true;
      draw();
    },
    stop(): void {
      awake.want(false);
      unfollowCarriers();
      coming.stop();
      beat.stop();
    },
    heard(message: ToSeat): void {
      if (message.kind === "clock") clock.heard(message.t, message.at);
      else if (message.kind === "due") coming.plan(message);
      else if (message.kind === "kept") own.kept(message);
      else if (message.kind === "unkept") own.unkept(message);
      else if (message.kind === "state") state(message);
      else if (message.kind === "cancelled") coming.cancelled(message);
    },
  };
}
