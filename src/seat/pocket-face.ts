import { takeHoldMs } from "../../shared/seats/limits.ts";
import type { FromSeat, PocketPlace, ToSeat } from "../../shared/seats/message.ts";
import { button, element, put, show, write } from "./dom.ts";
import { pressId } from "./press-id.ts";
import type { SeatSocket } from "./seat-line.ts";
import { say } from "./words.ts";

/** A press that was not confirmed is said again within this time; later nobody would expect it, in ms. */
const sayAgainWithinMs = 30_000;

interface AskedPress {
  readonly where: string;
  readonly word: string;
  readonly message: FromSeat;
  readonly at: number;
}

/** Large fields on the page, each for one place in the room. */
const fields = 4;

/**
 * The adult's phone: four large fields, give above and take below. Taking wants to be held; a slip of the
 * thumb in the pocket takes nothing.
 */
export function pocketFace(line: SeatSocket) {
  let places: readonly PocketPlace[] = [];
  let earns = false;
  let takes = false;
  let pinned: number[] = [];
  /** What is under way, by its press: where, and what is said once it is done. */
  const asked = new Map<string, AskedPress>();
  let wasLost = false;
  // One line for all fields: a long sentence moves no button, and outlives a change of the room.
  const said = element("p", { className: "pocket-said", role: "status" });
  const tell = (where: string, text: string) => write(said, `${where}: ${text}`);
  let frame = "";

  function draw(): void {
    const now = JSON.stringify([places, earns, takes, pinned]);
    if (now === frame) return;
    frame = now;
    const grid = element("div", { className: "pocket-fields" });
    for (let at = 0; at < fields; at += 1) {
      const place = places.filter((each) => each.place === pinned[at])[0];
      grid.appendChild(
        place === undefined ? element("div", { className: "pocket-empty" }) : field(place, at),
      );
    }
    const trouble =
      places.length === 0 ? say("pocketPage.noSession") : earns ? "" : say("pocketPage.noPoints");
    const body =
      trouble === "" ? grid : element("p", { className: "lead", text: trouble, role: "status" });
    put(
      element(
        "div",
        { className: "page pocket" },
        body,
        said,
        element("p", { className: "knows", text: say(knowsNow()) }),
      ),
    );
  }

  function knowsNow(): "pocketPage.knowsNames" | "pocketPage.knows" {
    const isNamed = places.some(({ name }) => name !== undefined);
    return isNamed ? "pocketPage.knowsNames" : "pocketPage.knows";
  }

  function field(place: PocketPlace, at: number): HTMLElement {
    const where = { row: place.row, column: place.column };
    const named = say("pocketPage.place", where);
    const send = (word: "pocketPage.given" | "pocketPage.taken", isGiving: boolean) => {
      const press = pressId();
      const message = isGiving
        ? ({ kind: "give", press, place: place.place, amount: 1 } as const)
        : ({ kind: "take", press, place: place.place } as const);
      const sent = line.send(message);
      tell(named, say(sent ? "pocketPage.sending" : "pocketPage.notSent"));
      if (sent) asked.set(press, { where: named, word: say(word), message, at: performance.now() });
    };
    const give = button(say("pocketPage.giveShort"), "pocket-give", () =>
      send("pocketPage.given", true),
    );
    give.setAttribute("aria-label", say("pocketPage.give", where));
    const take = element("button", {
      className: "pocket-take",
      text: say("pocketPage.takeShort"),
      label: say("pocketPage.take", where),
    });
    onHold(take, () => send("pocketPage.taken", false));
    // Not gone, so that the others stay where they are.
    show(take, takes);
    const held = place.name;
    const name = element(held === undefined ? "span" : "button", {
      className: "pocket-place",
      text: named,
    });
    // A name is shown only while the place is held down.
    if (held !== undefined) {
      name.setAttribute("aria-label", say("pocketPage.holdForName", where));
      whileHeld(name, held, named);
    }
    const other = button(say("pocketPage.choose"), "quiet", () => choose(at));
    return element("section", { className: "pocket-field" }, give, name, take, other);
  }

  function choose(at: number): void {
    frame = "";
    // As the room is: whoever is absent leaves a gap.
    const grid = element("div", { className: "pocket-room" });
    for (const place of places) {
      const where = { row: place.row, column: place.column };
      const pick = button(`${place.row}.${place.column}`, "plain", () => {
        pinned[at] = place.place;
        draw();
      });
      pick.setAttribute("aria-label", say("pocketPage.place", where));
      pick.style.gridRow = String(place.row);
      pick.style.gridColumn = String(place.column);
      grid.appendChild(pick);
    }
    put(
      element(
        "div",
        { className: "page pocket" },
        element("h1", { text: say("pocketPage.chooseTitle") }),
        grid,
        button(say("pocketPage.cancel"), "plain", draw),
      ),
    );
  }

  /** What was sent and not confirmed may have arrived or not; the same press said twice is one. */
  function sayAgain(): void {
    wasLost = false;
    asked.forEach(({ where, message, at }, press) => {
      if (performance.now() - at < sayAgainWithinMs && line.send(message)) return;
      asked.delete(press);
      tell(where, say("pocketPage.unsure"));
    });
  }

  return {
    heard(message: ToSeat): void {
      if (message.kind === "places") {
        places = message.places;
        earns = message.points;
        takes = message.takes;
        if (pinned.length === 0) pinned = places.slice(0, fields).map(({ place }) => place);
        draw();
        if (wasLost) sayAgain();
      } else if (message.kind === "done" || message.kind === "refused") {
        const of = asked.get(message.press);
        asked.delete(message.press);
        if (of === undefined) return;
        tell(
          of.where,
          message.kind === "done" ? of.word : say(`pocketPage.refused.${message.why}` as const),
        );
      }
    },
    lost(): void {
      wasLost = true;
    },
  };
}

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
function onHold(what: HTMLElement, held: () => void): void {
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

function whileHeld(what: HTMLElement, held: string, otherwise: string): void {
  onPress(
    what,
    () => write(what, held),
    () => write(what, otherwise),
  );
}
