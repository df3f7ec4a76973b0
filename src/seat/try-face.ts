import {
  canVibrate,
  changeLevel,
  forgetCarriers,
  setWorks,
  tick,
  vibrate,
  wakeSound,
} from "./carriers.ts";
import { button, element, put, show } from "./dom.ts";
import { quietBand } from "./quiet-band.ts";
import { say } from "./words.ts";

/** How long the quiet sign is shown at joining, in ms. */
const showMs = 2_500;

/** Tries out by what this device can carry a cue; the quiet sign always, the others if they were noticed. */
export function showTryFace(number: number, ready: () => void): void {
  forgetCarriers();
  const { band, light } = quietBand();
  let fading = 0;
  const face = element(
    "div",
    { className: "face" },
    element("h1", { text: say("seatPage.seat", { number }) }),
    element("p", { text: say("seatPage.tryHelp") }),
    button(say("seatPage.showSign"), "plain", () => {
      // Pressed again while it shows, it shows on.
      clearTimeout(fading);
      light(true);
      fading = window.setTimeout(() => light(false), showMs);
    }),
  );
  if (canVibrate()) face.appendChild(touchPart());
  face.appendChild(tickPart());
  face.appendChild(
    button(say("seatPage.ready"), "main", () => {
      wakeSound();
      ready();
    }),
  );
  const knows = element("p", { className: "knows", text: say("seatPage.knows", { number }) });
  put(element("div", { className: "page" }, band, face, knows));
}

/** A question with two answers; the pressed one is marked. */
function asked(text: string, answer: (isSo: boolean) => void): HTMLElement {
  const yes = button(say("seatPage.itIsSo"), "plain", () => choose(true));
  const no = button(say("seatPage.itIsNot"), "plain", () => choose(false));
  const choose = (isSo: boolean) => {
    yes.setAttribute("aria-pressed", String(isSo));
    no.setAttribute("aria-pressed", String(!isSo));
    answer(isSo);
  };
  return element("p", { className: "asked" }, element("span", { text }), yes, no);
}

function touchPart(): HTMLElement {
  const question = asked(say("seatPage.felt"), (felt) => setWorks("touch", felt));
  show(question, false);
  const press = button(say("seatPage.tryTouch"), "plain", () => {
    vibrate();
    show(question, true);
  });
  return element(
    "section",
    { className: "try" },
    element("h2", { text: say("seatPage.touch") }),
    press,
    question,
  );
}

function tickPart(): HTMLElement {
  const question = asked(say("seatPage.heard"), (heard) => setWorks("tick", heard));
  show(question, false);
  const sound = () => {
    wakeSound();
    // A sound device that was just woken needs a moment.
    window.setTimeout(() => tick(), 150);
    show(question, true);
  };
  const hear = button(say("seatPage.tryTick"), "plain", sound);
  const softer = button(say("seatPage.softer"), "plain", () => {
    changeLevel(-1);
    sound();
  });
  const louder = button(say("seatPage.louder"), "plain", () => {
    changeLevel(1);
    sound();
  });
  return element(
    "section",
    { className: "try" },
    element("h2", { text: say("seatPage.tick") }),
    element("p", { className: "soft", text: say("seatPage.tickCaution") }),
    element("p", { className: "asked" }, hear, softer, louder),
    question,
  );
}
