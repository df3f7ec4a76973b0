import { Link, useNavigate } from "react-router";
import type { Timetable } from "../../../shared/calendar/timetable.ts";
import type { Group } from "../../../shared/roster/roster.ts";
import {
  useGroups,
  useOpenSession,
  useSessions,
  useTell,
  useTimetable,
} from "../../api/queries.ts";
import { useDay } from "../../live/reminder/use-day.ts";
import { useStartGroup } from "../../live/start-group.tsx";
import { Button } from "../../parts/button.tsx";
import { Pick } from "../../parts/field.tsx";
import { LastBackup } from "../../parts/last-backup.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { ReadingOnly } from "../../parts/reading-only.tsx";
import { WhatsNew } from "../../parts/whats-new.tsx";
import { LastSession } from "../../reading/last-session.tsx";
import { useSay } from "../../text/text.tsx";
import { usePlanSummary } from "../../words/plan-summary.ts";
import { NextLine } from "./next-line.tsx";
import { RecentSessions } from "./recent-sessions.tsx";
import { bySitting } from "./sitting.ts";
import { WaitingList } from "./waiting-list.tsx";
import { Welcome } from "./welcome.tsx";
import "./today.css";

/** Where a day starts: what is open, which groups can sit, one press to start. */
export function TodayScreen() {
  const say = useSay();
  const groups = useGroups();
  const recent = useSessions(null, 8);
  const timetable = useTimetable();
  if (groups.data === undefined || timetable.isPending)
    return <Page title={say("nav.today")}>{say("wait")}</Page>;
  if (groups.data.length === 0) return <Welcome />;
  return (
    <Page title={say("nav.today")} lead={say("today.lead")}>
      <ReadingOnly />
      <div className="today">
        <div className="today-main">
          <OpenSession />
          {timetable.data === undefined ? (
            <>
              <Problem error={timetable.error} />
              <GroupStarts title={say("today.groups")} groups={groups.data} />
            </>
          ) : (
            <DayOfGroups groups={groups.data} timetable={timetable.data} />
          )}
          {recent.data === undefined || recent.data.length === 0 ? null : (
            <Section title={say("today.recent")}>
              <RecentSessions sessions={recent.data} />
            </Section>
          )}
        </div>
        {/* A margin of its own: what comes late there moves nothing that somebody is about to press. */}
        <aside className="today-margin">
          {timetable.data === undefined ? null : (
            <Section title={say("today.waiting")}>
              <WaitingList groups={groups.data} today={timetable.data.today} />
            </Section>
          )}
          <WhatsNew />
        </aside>
      </div>
      <div className="today-caution">
        <p>{say("today.caution")}</p>
        <LastBackup />
      </div>
    </Page>
  );
}

/** The groups that meet today, then the others, which can start all the same. */
function DayOfGroups(props: { groups: readonly Group[]; timetable: Timetable }) {
  const say = useSay();
  const { today, groups: weekdays } = props.timetable;
  const { sitting, others } = bySitting(props.groups, weekdays, today);
  return (
    <>
      <GroupStarts title={say("today.groups")} groups={sitting} />
      <GroupStarts
        title={say(sitting.length === 0 ? "today.groups" : "today.otherGroups")}
        groups={others}
      />
    </>
  );
}

function GroupStarts({ title, groups }: { title: string; groups: readonly Group[] }) {
  if (groups.length === 0) return null;
  return (
    <Section title={title}>
      <ul className="today-groups">
        {groups.map((group) => (
          <li key={group.id}>
            <GroupCard group={group} />
          </li>
        ))}
      </ul>
    </Section>
  );
}

/** A session that is running, or that an earlier run of the app left open. */
function OpenSession() {
  const say = useSay();
  const open = useOpenSession();
  const navigate = useNavigate();
  const resume = useTell((api, sessionId: string) => api.sessions.resume({ sessionId }));
  const close = useTell((api, sessionId: string) => api.sessions.end({ sessionId }));
  if (open === null) return null;
  const to = `/session/${open.id}`;
  const values = { group: open.groupName, cues: open.cuesDelivered };
  if (open.status !== "interrupted") {
    return (
      <Notice title={say("today.running", values)}>
        <Link to={to}>{say("today.goToSession")}</Link>
      </Notice>
    );
  }
  return (
    <Notice title={say("today.interrupted", values)}>
      <p>{say("today.interruptedHelp")}</p>
      <div className="today-row">
        <Button
          look="main"
          isDisabled={resume.isPending}
          onPress={() => resume.mutate(open.id, { onSuccess: () => navigate(to) })}
        >
          {say("today.resume")}
        </Button>
        <Button isDisabled={close.isPending} onPress={() => close.mutate(open.id)}>
          {say("today.close")}
        </Button>
      </div>
      <Problem error={resume.error ?? close.error} />
    </Notice>
  );
}

/** One group with the plan it works under and the press that starts it. */
function GroupCard({ group }: { group: Group }) {
  const say = useSay();
  const summary = usePlanSummary();
  const start = useStartGroup(group);
  const dayOf = useDay();
  const { plans, plan } = start;
  if (plan === undefined) return null;
  return (
    <article className="today-group" aria-label={group.name}>
      <div className="today-who">
        <h3>
          <Link to={`/groups/${group.id}`}>{group.name}</Link>
        </h3>
        <p className="today-facts">
          {say("today.students", { count: group.studentCount })}
          {group.isSample ? ` · ${say("today.sampleTag")}` : ""}
        </p>
        <p className="today-facts">
          {summary(plan.settings)}{" "}
          <Link to={`/groups/${group.id}/plans/${plan.id}`}>{say("today.changePlan")}</Link>
        </p>
        <LastSession groupId={group.id} className="today-last" />
        <NextLine day={dayOf(group.id)} />
        {plans.length > 1 ? (
          <Pick
            label={say("today.plan")}
            value={plan.id}
            onChange={start.choosePlan}
            choices={plans.map(({ id, name }) => ({ value: id, label: name }))}
          />
        ) : null}
        {group.studentCount === 0 ? <p>{say("today.emptyGroup")}</p> : null}
      </div>
      <Button
        look="main"
        size="large"
        isDisabled={!start.canStart}
        onPress={start.press}
        aria-label={say("today.startGroup", { group: group.name })}
      >
        {say("today.start")}
      </Button>
      <nav className="today-ways" aria-label={say("today.waysOf", { group: group.name })}>
        <Link to={`/progress/${group.id}`}>{say("today.seeProgress")}</Link>
        <Link
          to={`/groups/${group.id}/practice`}
          aria-label={say("today.practiseWith", { group: group.name })}
        >
          {say("today.practise")}
        </Link>
        <Link
          to={`/groups/${group.id}/observe`}
          aria-label={say("today.observeIn", { group: group.name })}
        >
          {say("today.observe")}
        </Link>
        <Link
          to={`/groups/${group.id}/held`}
          aria-label={say("held.linkNamed", { group: group.name })}
        >
          {say("held.link")}
        </Link>
      </nav>
      <Problem error={start.error} />
      {start.steps}
    </article>
  );
}
