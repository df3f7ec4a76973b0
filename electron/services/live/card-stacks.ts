import type { Session } from "../../../shared/api/sessions.ts";
import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import { sessionCode } from "../../../shared/record/session-code.ts";
import type { Store } from "../../store/store.ts";

/** How many of the newest sessions a code is looked for among: several years of a class. */
const sessionsSearched = 2_000;

/** Cards older than this are entered from the group's page, not found by their code, in days. */
const daysSearched = 120;
/** Sessions of one plan on one day whose cards are recognized though none was held here. */
const placesSearched = 3;

interface NotHeld {
  readonly groupId: string;
  readonly groupName: string;
  readonly planId: string;
  readonly planName: string;
  /** Null for cards without a date. */
  readonly day: string | null;
}

/** Sessions that cards with this code may have been printed for and that are not here. */
function notHeld(store: Store, code: string, today: string): NotHeld[] {
  const last = dayNumber(today);
  const days = Array.from({ length: daysSearched }, (_, back) => dayText(last - back));
  return store.groups.list(false).flatMap((group) =>
    store.plans.list(group.id).flatMap((plan): NotHeld[] => {
      const stack = { groupId: group.id, planName: plan.name };
      const facts = { groupId: group.id, groupName: group.name, planId: plan.id };
      const found = { ...facts, planName: plan.name };
      if (sessionCode({ ...stack, day: null, place: 1 }) === code) return [{ ...found, day: null }];
      const day = days.find((each) =>
        Array.from({ length: placesSearched }, (_, index) => index + 1).some(
          (place) => sessionCode({ ...stack, day: each, place }) === code,
        ),
      );
      return day === undefined ? [] : [{ ...found, day }];
    }),
  );
}

/** The sessions that stacks of printed cards belong to, by the code on them. */
export function cardStacks(store: Store) {
  /**
   * Which session of its day under its plan each one is, from 1. A session in which no cue was heard
   * uses up no place: nobody wrote on its cards, so they serve for the next one.
   *
   * @param sameDay sessions of one group, plan and day
   */
  function placesOf(sameDay: readonly Session[]): Map<string, number> {
    const inOrder = sameDay.toSorted((one, other) => one.startedMs - other.startedMs);
    let place = 1;
    return new Map(
      inOrder.map(({ id }, index): [string, number] => {
        const own = place;
        const isLast = index === inOrder.length - 1;
        if (!isLast && store.outlines.of(id).cuesDelivered > 0) place += 1;
        return [id, own];
      }),
    );
  }

  const withCards = (groupId: string | null): Session[] =>
    store.sessions.list(groupId, sessionsSearched).filter(({ kind }) => kind === "seatwork");

  const openCodeOf = ({ groupId, planName }: Session): string =>
    sessionCode({ groupId, planName, day: null, place: 1 });

  return {
    /** The codes that cards of this session carry, printed with the date and without. */
    codesOf(session: Session): { code: string; openCode: string } {
      const { groupId, planName, day } = session;
      const sameDay = withCards(groupId).filter(
        (other) => other.planName === planName && other.day === day,
      );
      const place = placesOf(sameDay).get(session.id) ?? 1;
      const code = sessionCode({ groupId, planName, day, place });
      return { code, openCode: openCodeOf(session) };
    },

    /**
     * Which sessions a code stands for, newest first; which plans, for cards without a date; and, when it
     * stands for neither, which sessions could have been held without the app.
     *
     * @param today school-local day
     */
    find(typed: string, today: string) {
      const code = typed.trim().toUpperCase();
      const all = withCards(null);
      const byDay = Map.groupBy(all, (each) =>
        JSON.stringify([each.groupId, each.planName, each.day]),
      );
      const sessions = [...byDay.values()].flatMap((sameDay) => {
        const places = placesOf(sameDay);
        return sameDay.filter(({ id, groupId, planName, day }) => {
          const place = places.get(id) ?? 1;
          return sessionCode({ groupId, planName, day, place }) === code;
        });
      });
      const plans = new Map(
        all
          .filter((each) => openCodeOf(each) === code)
          .map(({ groupId, groupName, planName }) => [
            JSON.stringify([groupId, planName]),
            { groupId, groupName, planName },
          ]),
      );
      const known = sessions.length + plans.size > 0;
      return {
        sessions,
        plans: [...plans.values()],
        notHeld: known ? [] : notHeld(store, code, today),
      };
    },
  };
}
