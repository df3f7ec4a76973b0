import { drawAlternation } from "../../shared/reading/drawn/drawn-alternation.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";

/** Two conditions by turns: the order is drawn here, from the seed that the page shows. */
export function alternationHandlers(
  store: Store,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["alternations"] {
  return {
    list: ({ groupId }) => store.alternations.list(groupId),

    create({ sessions, ...facts }) {
      const group = knownGroup(store, facts.groupId);
      if (store.alternations.present(facts.groupId) !== null) {
        throw new Refusal(
          "alternation-open",
          "Two conditions take turns in this group already. Hold their sessions to the end, or take them away first.",
          { group: group.name },
        );
      }
      const order = drawAlternation(facts.seed, sessions);
      const made = store.alternations.create({ ...facts, order }, clock.wallMs());
      changes.publish("sessions");
      return made;
    },

    remove({ id }) {
      if (store.alternations.groupOf(id) === null) throw new Missing("alternation");
      store.alternations.remove(id);
      changes.publish("sessions");
      return {};
    },
  };
}
