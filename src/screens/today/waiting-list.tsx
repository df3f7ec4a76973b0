import { Fragment } from "react";
import { Link } from "react-router";
import type { SessionListItem } from "../../../shared/api/sessions.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import type { Group } from "../../../shared/roster/roster.ts";
import { useAsk, useDaysOff } from "../../api/queries.ts";
import { useGroupCounts } from "../../reading/use-reading.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { AdviceLine } from "./advice-line.tsx";
import { awaitsCards, dayOffOn, owesCheck, sessionsWithoutCheck } from "./awaits.ts";
import { DamageLines } from "./damage-lines.tsx";
import { HomeCardsLine } from "./home-cards-line.tsx";
import { KeptGroups } from "./kept-groups.tsx";
import { LongArchived } from "./long-archived.tsx";
import { ProbeLine } from "./probe-line.tsx";
import { ReviewLines } from "./review-line.tsx";
import { StartLine } from "./start-line.tsx";
import { TurnWaiting } from "./turn-waiting.tsx";
import { WaitingItem } from "./waiting-item.tsx";

/** Cards are typed in within so many days, today among them; older ones are let go. */
const daysOfCards = 60;

/** What waits for the teacher, in a few lines; nothing when nothing does. */
export function WaitingList({ groups, today }: { groups: readonly Group[]; today: string }) {
  const say = useSay();
  const onPaper = useAsk("sessions", ["on-paper", daysOfCards], (api) =>
    api.sessions.onPaper({ days: daysOfCards }),
  );
  const known = new Set(groups.map(({ id }) => id));
  const cards = (onPaper.data ?? []).filter(
    (session) => known.has(session.groupId) && awaitsCards(session),
  );
  return (
    <>
      <ul className="today-waiting">
        <DamageLines />
        <DayOffLine today={today} />
        <LongArchived />
        <KeptGroups />
        {cards.map((session) => (
          <CardsLine key={session.id} session={session} />
        ))}
        {groups.map((group) => (
          <Fragment key={group.id}>
            <HomeCardsLine group={group} today={today} />
            <ReviewLines group={group} today={today} />
            <GroupLines group={group} today={today} />
          </Fragment>
        ))}
      </ul>
      <p className="today-nothing">{say("today.nothingWaits")}</p>
    </>
  );
}

function DayOffLine({ today }: { today: string }) {
  const say = useSay();
  const dayOff = dayOffOn(useDaysOff().data ?? [], today);
  if (dayOff === null) return null;
  return (
    <li>{say("today.dayOff", { label: dayOff.label, named: dayOff.label ? "yes" : "no" })}</li>
  );
}

function CardsLine({ session }: { session: SessionListItem }) {
  const say = useSay();
  const formats = useFormats();
  const values = {
    group: session.groupName,
    day: formats.day(session.day),
    time: formats.time(session.startedMs, session.offsetMinutes),
  };
  return (
    <WaitingItem what={`cards ${session.id}`} named={say("today.cardsWait", values)}>
      {say("today.cardsWait", values)}{" "}
      <Link to={`/session/${session.id}/cards`} aria-label={say("today.enterCardsOf", values)}>
        {say("today.enterCards")}
      </Link>
    </WaitingItem>
  );
}

/** The lines that need a group's record; they come when it is there and hold nothing up. */
function GroupLines({ group, today }: { group: Group; today: string }) {
  const counts = useGroupCounts(group.id).data;
  if (counts === undefined) return null;
  return (
    <>
      <StartLine group={group} today={today} />
      <TurnWaiting group={group} today={today} />
      <ProbeLine group={group} counts={counts} today={today} />
      {owesCheck(counts) ? <CheckOwed group={group} counts={counts} /> : null}
      <AdviceLine group={group} counts={counts} />
    </>
  );
}

/** Put aside, it waits again after the next session. */
function CheckOwed({ group, counts }: { group: Group; counts: GroupCounts }) {
  const say = useSay();
  const words = say("today.checkOwed", { group: group.name, sessions: sessionsWithoutCheck });
  return (
    <WaitingItem what={`check ${group.id} ${counts.sessions.at(-1)?.id ?? ""}`} named={words}>
      {words}
    </WaitingItem>
  );
}
