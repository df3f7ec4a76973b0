import { Link } from "react-router";
import { useAsk, useTimetable } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";

/** The cards of a group for a day; undefined until known. */
export const useCardsOfDay = (groupId: string, day: string) =>
  useAsk("home", ["cards-of-day", groupId, day], (api) => api.homeCards.ofDay({ groupId, day }))
    .data;

/** The way to a group's home cards; nothing where nobody has one. */
export function HomeCardsLink({ groupId }: { groupId: string }) {
  const today = useTimetable().data?.today;
  return today === undefined ? null : <Known groupId={groupId} today={today} />;
}

function Known({ groupId, today }: { groupId: string; today: string }) {
  const say = useSay();
  const cards = useCardsOfDay(groupId, today) ?? [];
  return cards.length === 0 ? null : (
    <Link to={`/groups/${groupId}/home-cards`}>{say("homeCards.link")}</Link>
  );
}
