import { takeHoldMs } from "../../shared/seats/limits.ts";
import type { PocketPlace, ToSeat } from "../../shared/seats/message.ts";
import { button, element, put, write } from "./dom.ts";
import { pressId } from "./press-id.ts";
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
  let pinned: number[] = [];
  const asked = new Map<string, { readonly said: HTMLElement; readonly word: string }>();
  let frame = "";

  function draw(): void {
    const now = JSON.stringify([places, earns, pinned]);
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
        element("p", { className: "knows", text: say("pocketPage.knows") }),
      ),
    );
  }

  function field(place: PocketPlace, at: number): HTMLElement {
    const where = { row: place.row, column: place.column };
    const said = element("p", { className: "pocket-said", role: "status" });
    const send = (word: "pocketPage.given" | "pocketPage.taken", isGiving: boolean) => {
      const press = pressId();
      const sent = isGiving
        ? line.send({ kind: "give", press, place: place.place, amount: 1 })
        : line.send({ kind: "take", press, place: place.place });
      write(said, say(sent ? "pocketPage.sending" : "pocketPage.notSent"));
      if (sent) asked.set(press, { said, word: say(word) });
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
    const name = element("span", {
      className: "pocket-place",
      text: say("pocketPage.place", where),
    });
    // A name is shown only while the place is held down.
    if (place.name !== undefined) whileHeld(name, place.name, say("pocketPage.place", where));
    const other = button(say("pocketPage.choose"), "quiet", () => choose(at));
    return element("section", { className: "pocket-field" }, give, name, said, take, other);
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

  return {
    heard(message: ToSeat): void {
      if (message.kind === "places") {
        places = message.places;
        earns = message.points;
        if (pinned.length === 0) pinned = places.slice(0, fields).map(({ place }) => place);
        draw();
      } else if (message.kind === "done" || message.kind === "refused") {
        const of = asked.get(message.press);
        asked.delete(message.press);
        if (of === undefined) return;
        write(
          of.said,
          message.kind === "done" ? of.word : say(`pocketPage.refused.${message.why}` as const),
        );
      }
    },
    /** What was sent and not confirmed may not have arrived. */
    lost(): void {
      asked.forEach(({ said }) => {
        write(said, say("pocketPage.notSent"));
      });
      asked.clear();
    },
  };
}

/** Calls back once when something is held for its time, with a finger, a mouse or a key. */
function onHold(what: HTMLElement, held: () => void): void {
  let timer = 0;
  const begin = () => {
    if (timer !== 0) return;
    what.classList.add("is-held");
    timer = window.setTimeout(() => {
      end();
      held();
    }, takeHoldMs);
  };
  const end = () => {
    clearTimeout(timer);
    timer = 0;
    what.classList.remove("is-held");
  };
  what.addEventListener("touchstart", (event) => {
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

function whileHeld(what: HTMLElement, held: string, otherwise: string): void {
  const begin = () => write(what, held);
  const end = () => write(what, otherwise);
  what.addEventListener("touchstart", begin);
  what.addEventListener("touchend", end);
  what.addEventListener("touchcancel", end);
  what.addEventListener("mousedown", begin);
  what.addEventListener("mouseup", end);
  what.addEventListener("mouseleave", end);
}
