import type { SeatStanding } from "../../shared/seats/message.ts";
import { button, element, put, show, write } from "./dom.ts";
import { awaySign, noSign, pebble, undoSign, yesSign } from "./drawings.ts";
import { quietBand } from "./quiet-band.ts";
import { say } from "./words.ts";

/** What a seat's page shows; all of it follows from this. */
export interface SeatView {
  readonly number: number;
  readonly look: "words" | "pictures";
  readonly standing: SeatStanding;
  readonly isOffline: boolean;
  /** The cue that is asked about; null when none is. */
  readonly cue: number | null;
  /** `sent` for a moment, until it is confirmed. */
  readonly answer: "none" | "sent" | "recorded" | "late" | "waits" | "away";
  readonly canUndo: boolean;
  /** A sentence about the last answer, such as that it came too late. */
  readonly remark: string;
  /** Own points; null where nothing earns. */
  readonly points: number | null;
}

export interface SeatActs {
  mark(value: "on" | "off"): void;
  away(): void;
  undo(): void;
}

/**
 * What has just appeared takes no press for so long: a bouncing finger answers once, in ms. The band at the
 * edge has a longer rest of its own.
 */
const restMs = 600;

/**
 * The seat's face: everything on it has its own place, whatever is asked, and what does not belong to the
 * moment is out of sight. Nothing on it tells when the next cue comes.
 */
export function seatFace(acts: SeatActs): { draw(view: SeatView): void } {
  let shownKey = "";
  let shownAt = 0;
  const steady = (press: () => void) => () => {
    if (performance.now() - shownAt >= restMs) press();
  };
  const { band, light } = quietBand();
  const title = element("h1", { className: "seat-number" });
  const lead = element("p", { className: "lead", role: "status" });
  const yes = answerButton(
    "seatPage.yes",
    "seatPage.yesNamed",
    yesSign(),
    steady(() => acts.mark("on")),
  );
  const no = answerButton(
    "seatPage.no",
    "seatPage.noNamed",
    noSign(),
    steady(() => acts.mark("off")),
  );
  const said = element("p", { className: "said", role: "status" });
  const stone = pebble("stone");
  const answers = element("div", { className: "answers" }, yes, no);
  const away = smallButton("seatPage.away", awaySign(), steady(acts.away));
  const undo = smallButton("seatPage.undo", undoSign(), steady(acts.undo));
  const foot = element("div", { className: "small" }, away, undo);
  const { counter, drawPoints } = pointsCounter();
  const knows = element("p", { className: "knows" });
  const page = element(
    "div",
    { className: "page seat" },
    band,
    title,
    element("div", { className: "face" }, lead, answers, said, foot),
    counter,
    knows,
  );
  page.insertBefore(stone, page.firstChild);
  put(page);

  return {
    draw(view) {
      const isAsking = view.cue !== null && view.answer === "none";
      const key = `${view.cue} ${view.answer} ${view.standing}`;
      if (key !== shownKey) {
        shownKey = key;
        shownAt = performance.now();
      }
      page.className = `page seat look-${view.look} is-${view.standing}${isAsking ? " is-asking" : ""}`;
      light(isAsking);
      write(title, say("seatPage.seat", { number: view.number }));
      write(lead, leadOf(view));
      show(yes, isAsking);
      show(no, isAsking);
      show(away, isAsking);
      show(undo, view.canUndo && view.answer !== "none");
      write(said, saidOf(view));
      drawPoints(view.points);
      const known = view.points === null ? "seatPage.knows" : "seatPage.knowsPoints";
      write(knows, say(known, { number: view.number }));
    },
  };
}

function leadOf({ cue, standing, answer }: SeatView): string {
  if (cue !== null && answer === "none") {
    return standing === "ended" ? say("seatPage.lastAnswer") : say("seatPage.question");
  }
  switch (standing) {
    case "untied":
      return say("seatPage.untied");
    case "idle":
      return say("seatPage.idle");
    case "running":
      return say("seatPage.running");
    case "paused":
      return say("seatPage.resting");
    case "ended":
      return say("seatPage.ended");
  }
}

function saidOf({ answer, remark, isOffline }: SeatView): string {
  if (answer === "waits") return say("seatPage.waits");
  if (remark !== "") return remark;
  if (isOffline) return say("seatPage.offline");
  if (answer === "recorded") return say("seatPage.recorded");
  if (answer === "late") return say("seatPage.recordedLate");
  return answer === "away" ? say("seatPage.wasAway") : "";
}

function answerButton(
  word: "seatPage.yes" | "seatPage.no",
  named: "seatPage.yesNamed" | "seatPage.noNamed",
  sign: SVGElement,
  press: () => void,
): HTMLElement {
  const made = element("button", { className: "answer", label: say(named), onPress: press });
  made.appendChild(sign);
  made.appendChild(element("span", { className: "word", text: say(word) }));
  return made;
}

function smallButton(
  word: "seatPage.away" | "seatPage.undo",
  sign: SVGElement,
  press: () => void,
): HTMLElement {
  const made = element("button", { className: "quiet", label: say(word), onPress: press });
  made.appendChild(sign);
  made.appendChild(element("span", { className: "word", text: say(word) }));
  return made;
}

/** The counter: a number and a small still pebble. It can lie face down, and a loss only changes the number. */
function pointsCounter() {
  let isCovered = false;
  let points: number | null = null;
  const number = element("span", { className: "points-number" });
  const cover = button("", "quiet", () => {
    isCovered = !isCovered;
    draw();
  });
  const counter = element("div", { className: "points" }, pebble("points-pebble"), number, cover);
  function draw(): void {
    counter.style.display = points === null ? "none" : "";
    write(number, isCovered || points === null ? "" : String(points));
    number.setAttribute("aria-label", `${say("seatPage.points")}: ${points}`);
    write(cover, say(isCovered ? "seatPage.showPoints" : "seatPage.hidePoints"));
  }
  return {
    counter,
    drawPoints(now: number | null): void {
      if (points !== null && now !== null && now > points && !isCovered) {
        // A gain fills slowly.
        number.className = "points-number";
        void number.offsetWidth;
        number.className = "points-number points-gained";
      }
      points = now;
      draw();
    },
  };
}
