import type { PocketPlace, ToSeat } from "../../shared/seats/message.ts";
import { askedPresses } from "./asked-presses.ts";
import { button, element, put, show, write } from "./dom.ts";
import { onHold, whileHeld } from "./holding.ts";
import { placeChoice } from "./place-choice.ts";
import type { SeatSocket } from "./seat-line.ts";
import { say } from "./words.ts";

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
  // One line for all fields: a long sentence moves no button, and outlives a change of the room.
  const said = element("p", { className: "pocket-said", role: "status" });
  const presses = askedPresses(line, (where, text) => write(said, `${where}: ${text}`));
  let frame = "";
  /** The field for which a place is being chosen; null when none is. */
  let choosing: number | null = null;

  function draw(): void {
    const now = JSON.stringify([places, earns, takes, pinned, choosing]);
    if (now === frame) return;
    frame = now;
    // A change of the room leaves the choice where it is: a thumb on its way would meet another button.
    if (choosing !== null && places.length > 0) put(choice(choosing));
    else putFields();
  }

  function putFields(): void {
    choosing = null;
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
    const give = button(say("pocketPage.giveShort"), "pocket-give", () =>
      presses.ask(named, say("pocketPage.given"), { kind: "give", place: place.place, amount: 1 }),
    );
    give.setAttribute("aria-label", say("pocketPage.give", where));
    const take = element("button", {
      className: "pocket-take",
      text: say("pocketPage.takeShort"),
      label: say("pocketPage.take", where),
    });
    onHold(take, () =>
      presses.ask(named, say("pocketPage.taken"), { kind: "take", place: place.place }),
    );
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
    const other = button(say("pocketPage.choose"), "quiet", () => {
      choosing = at;
      draw();
    });
    return element("section", { className: "pocket-field" }, give, name, take, other);
  }

  function choice(at: number): HTMLElement {
    const done = () => {
      choosing = null;
      draw();
    };
    return placeChoice(
      places,
      say(knowsNow()),
      (place) => {
        pinned[at] = place;
        done();
      },
      done,
    );
  }

  return {
    heard(message: ToSeat): void {
      if (message.kind === "places") {
        places = message.places;
        earns = message.points;
        takes = message.takes;
        if (pinned.length === 0) pinned = places.slice(0, fields).map(({ place }) => place);
        draw();
        presses.sayAgain();
      } else if (message.kind === "done" || message.kind === "refused") presses.answered(message);
    },
    lost: presses.lost,
  };
}
