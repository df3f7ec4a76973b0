import { Link } from "react-router";
import { dayNumber, weekdayOf } from "../../../shared/calendar/calendar.ts";
import type { Group } from "../../../shared/roster/roster.ts";
import { useDaysOff, useWeekdays } from "../../api/queries.ts";
import { useCardsOfDay } from "../../class/home/home-cards-link.tsx";
import { useSay } from "../../text/text.tsx";
import { dayOffOn } from "./awaits.ts";
import { WaitingItem } from "./waiting-item.tsx";

/** The day's home cards: to print in the morning, to type in later; gone once all are typed in. */
export function HomeCardsLine({ group, today }: { group: Group; today: string }) {
  const say = useSay();
  const cards = useCardsOfDay(group.id, today) ?? [];
  const weekdays = useWeekdays(group.id);
  const dayOff = dayOffOn(useDaysOff().data ?? [], today);
  const sits = weekdays.includes(weekdayOf(dayNumber(today))) && dayOff === null;
  const waiting = cards.filter(({ typed }) => typed === null);
  if (!sits || waiting.length === 0) return null;
  const named = { group: group.name };
  const words = say("homeCards.today", { ...named, count: waiting.length });
  return (
    <WaitingItem what={`home cards ${group.id} ${today}`} named={words}>
      {words}{" "}
      <Link
        to={`/print/home-cards/${group.id}?day=${today}`}
        aria-label={say("homeCards.todayPrintOf", named)}
      >
        {say("homeCards.todayPrint")}
      </Link>{" "}
      <Link to={`/groups/${group.id}/home-cards`} aria-label={say("homeCards.todayTypeOf", named)}>
        {say("homeCards.todayType")}
      </Link>
    </WaitingItem>
  );
}
