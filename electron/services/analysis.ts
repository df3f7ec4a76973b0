import type { Store } from "../store/store.ts";
import type { Handlers } from "./base/handlers.ts";
import { Missing } from "./base/refusal.ts";

/** What the page's statistics start from: a group's counts, all at once. */
export function analysisHandlers(store: Store): Handlers["analysis"] {
  return {
    counts({ groupId }) {
      if (store.groups.get(groupId) === null) throw new Missing("group");
      return store.counts.ofGroup(groupId);
    },
  };
}
