import { takeHoldMs } from "../../shared/seats/limits.ts";
import { write } from "./dom.ts";

/** Calls back when something is pressed and when it is let go, with a finger, a mouse or a key. */
function onPress(what: HTMLElement, begin: () => void, end: () => void): void {
  what.addEventListener("touchstart", (event) => {
    // Neither a menu nor a marking of the text comes from a long press.
    event.preventDefault();
    begin();
  });
  what.addEventListener("touchend", end);
  what.addEventListener("touchcancel", end);
  what.addEventListener("mousedown", begin);
  what.addEventListener("mouseup", end);
  what.addEventListener("mouseleave", end);
  what.addEventListener("keydown", (event) => {
    if (event.key === " " || event.key === "Enter") {
      event.preventDefault();
      begin();
    }
  });
  what.addEventListener("keyup", end);
  what.addEventListener("blur", end);
}

/** Calls back once when something is held for its time. */
export function onHold(what: HTMLElement, held: () => void): void {
  let timer = 0;
  const end = () => {
    clearTimeout(timer);
    timer = 0;
    what.classList.remove("is-held");
  };
  const begin = () => {
    if (timer !== 0) return;
    what.classList.add("is-held");
    timer = window.setTimeout(() => {
      end();
      held();
    }, takeHoldMs);
  };
  onPress(what, begin, end);
}

/** Reads otherwise while it is held down. */
export function whileHeld(what: HTMLElement, held: string, otherwise: string): void {
  onPress(
    what,
    () => write(what, held),
    () => write(what, otherwise),
  );
}
