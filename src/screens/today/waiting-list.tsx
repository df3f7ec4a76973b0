import { Link } from "react-router";
import type { Group } from "../../../shared/api/roster.ts";
import type { SessionListItem } from "../../../shared/api/sessions.ts";
import { useAsk, useDaysOff } from "../../api/queries.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { awaitsCards, dayOffOn, owesCheck, sessionsWithoutCheck } from "./awaits.ts";

/** What waits for the teacher, in a few lines; nothing when nothing does. */
export function WaitingList(props: {
  groups: readonly Group[];
  sessions: readonly SessionListItem[];
}) {
  const { groups, sessions } = props;
  const cards = sessions.filter(awaitsCards);
  return (
    <ul className="today-waiting">
      {groups[0] === undefined ? null : <DayOffLine group={groups[0]} />}
      {cards.map((session) => (
        <CardsLine key={session.id} session={session} />
      ))}
      {groups.map((group) => (
        <CheckLine key={group.id} group={group} />
      ))}
    </ul>
  );
}

const useCounts = (groupId: string) =>
  useAsk("sessions", ["checks", groupId], (api) => api.analysis.counts({ groupId })).data;

function DayOffLine({ group }: { group: Group }) {
  const say = useSay();
  const today = useCounts(group.id)?.today;
  const daysOff = useDaysOff().data;
  const dayOff = today === undefined ? null : dayOffOn(daysOff ?? [], today);
  if (dayOff === null) return null;
  return (
    <li>{say("today.dayOff", { label: dayOff.label, named: dayOff.label ? "yes" : "no" })}</li>
  );
}

function CardsLine({ session }: { session: SessionListItem }) {
  const say = useSay();
  const formats = useFormats();
  return (
    <li>
      {say("today.cardsWait", { group: session.groupName, day: formats.day(session.day) })}{" "}
      <Link to={`/session/${session.id}/cards`}>{say("today.enterCards")}</Link>
    </li>
  );
}

function CheckLine({ group }: { group: Group }) {
  const say = useSay();
  const counts = useCounts(group.id);
  if (counts === undefined || !owesCheck(counts)) return null;
  return <li>{say("today.checkOwed", { group: group.name, sessions: sessionsWithoutCheck })}</li>;
}
