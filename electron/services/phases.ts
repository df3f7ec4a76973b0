import type { Phase } from "../../shared/phase/phase.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup, studentOf } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";

/** The phases that the analysis compares, of a whole group or of one student. */
export function phaseHandlers(
  store: Store,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["phases"] {
  return {
    list: ({ groupId }) => store.phases.list(groupId),

    create(facts) {
      knownGroup(store, facts.groupId);
      if (facts.studentId !== null) studentOf(store, facts.groupId, facts.studentId);
      refuseMisplaced(facts);
      const phase = store.phases.create(facts, clock.wallMs());
      changes.publish("phases");
      return phase;
    },

    createAll({ groupId, phases }) {
      knownGroup(store, groupId);
      for (const facts of phases) {
        if (facts.studentId !== null) studentOf(store, groupId, facts.studentId);
        refuseMisplaced(facts);
      }
      const now = clock.wallMs();
      const made = store.transaction(() =>
        phases.map((facts) => store.phases.create({ groupId, ...facts }, now)),
      );
      changes.publish("phases");
      return made;
    },

    update(change) {
      const phase = store.phases.get(change.id);
      if (phase === null) throw new Missing("phase");
      refuseMisplaced(change);
      store.phases.update(change);
      changes.publish("phases");
      return { ...phase, ...change };
    },

    remove({ id }) {
      if (store.phases.get(id) === null) throw new Missing("phase");
      store.phases.remove(id);
      changes.publish("phases");
      return {};
    },
  };
}

/** Probes belong to maintenance, and none comes before its first day. */
function refuseMisplaced({ kind, startsOn, probes }: Omit<Phase, "id" | "groupId" | "studentId">) {
  if (probes === null) return;
  const [first] = probes.days;
  if (kind === "maintenance" && first !== undefined && first >= startsOn) return;
  throw new Refusal(
    "probes-misplaced",
    "Probe days are drawn for a maintenance phase, from its first day on. Choose maintenance, or draw again.",
  );
}
