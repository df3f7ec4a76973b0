import type { PocketPlace } from "../../shared/seats/message.ts";
import { button, element } from "./dom.ts";
import { say } from "./words.ts";

/**
 * The places of the room to choose one from, as the room is: whoever is absent leaves a gap.
 *
 * @param knows what this page knows, in a sentence
 */
export function placeChoice(
  places: readonly PocketPlace[],
  knows: string,
  choose: (place: number) => void,
  cancel: () => void,
): HTMLElement {
  const grid = element("div", { className: "pocket-room" });
  for (const { place, row, column } of places) {
    const pick = button(`${row}.${column}`, "plain", () => choose(place));
    pick.setAttribute("aria-label", say("pocketPage.place", { row, column }));
    pick.style.gridRow = String(row);
    pick.style.gridColumn = String(column);
    grid.appendChild(pick);
  }
  return element(
    "div",
    { className: "page pocket" },
    element("h1", { text: say("pocketPage.chooseTitle") }),
    grid,
    button(say("pocketPage.cancel"), "plain", cancel),
    element("p", { className: "knows", text: knows }),
  );
}
