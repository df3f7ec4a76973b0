import { useState } from "react";
import { Link, useNavigate, useParams } from "react-router";
import type { Plan } from "../../../shared/api/plans.ts";
import { firstPlan, offeredFirst } from "../../../shared/plan/plan.ts";
import type { Group } from "../../../shared/roster/roster.ts";
import { useGroups, usePlans, useSettings, useTell } from "../../api/queries.ts";
import { HomeCardsLink } from "../../class/home/home-cards-link.tsx";
import { PointsLink } from "../../class/points/points-link.tsx";
import { useStartGroup } from "../../live/start-group.tsx";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Menu } from "../../parts/menu.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { PaperLinks } from "../../parts/paper-links.tsx";
import { Problem } from "../../parts/problem.tsx";
import { ReadingOnly } from "../../parts/reading-only.tsx";
import { useSay } from "../../text/text.tsx";
import { usePlanSummary } from "../../words/plan-summary.ts";
import { DayTimes } from "./day-times.tsx";
import { SittingDays } from "./sitting-days.tsx";
import { StudentList } from "./student-list.tsx";
import "./groups.css";

/** Letters in the name of a plan. */
const longestPlanName = 60;

/** One group: its name and target, its students, its plans. */
export function GroupScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const group = groups.data?.find(({ id }) => id === groupId);
  if (groups.data === undefined) return <Page title={say("nav.groups")}>{say("wait")}</Page>;
  if (group === undefined) return <Page title={say("error.missing")}>{null}</Page>;
  return <Known key={group.id} group={group} />;
}

function Known({ group }: { group: Group }) {
  const say = useSay();
  const start = useStartGroup(group);
  const usesSeats = useSettings()?.seats === true;
  return (
    <Page
      title={group.name}
      back={<Link to="/groups">{say("nav.groups")}</Link>}
      lead={say("today.students", { count: group.studentCount })}
      actions={
        <Button look="main" size="large" isDisabled={!start.canStart} onPress={start.press}>
          {say("groups.start")}
        </Button>
      }
    >
      <nav className="groups-ways" aria-label={say("groups.ways")}>
        <Link to={`/progress/${group.id}`}>{say("today.seeProgress")}</Link>
        <Link to={`/groups/${group.id}/practice`}>{say("today.practise")}</Link>
        <Link to={`/groups/${group.id}/observe`}>{say("today.observe")}</Link>
        <PointsLink groupId={group.id} />
        <HomeCardsLink groupId={group.id} />
        {usesSeats ? <Link to={`/groups/${group.id}/seats`}>{say("seat.title")}</Link> : null}
        {group.studentCount > 1 ? (
          <>
            <Link to={`/groups/${group.id}/teams`}>{say("teams.title")}</Link>
            <Link to={`/groups/${group.id}/pairs`}>{say("pairs.link")}</Link>
          </>
        ) : null}
        <Link to={`/groups/${group.id}/transfer`}>{say("transfer.link")}</Link>
      </nav>
      <ReadingOnly />
      {start.steps}
      <Problem error={start.error} />
      {group.isSample ? <SampleNotice /> : null}
      <Section
        title={say("groups.students")}
        actions={
          group.studentCount > 1 ? (
            <Link to={`/groups/${group.id}/room`}>{say("seats.plan")}</Link>
          ) : undefined
        }
      >
        <StudentList group={group} />
      </Section>
      <Section title={say("groups.plans")}>
        <PlanList group={group} />
      </Section>
      <Section title={say("groups.details")}>
        <Details key={group.id} group={group} />
      </Section>
      <Section title={say("groups.timetable")}>
        <SittingDays groupId={group.id} />
        <DayTimes groupId={group.id} />
      </Section>
    </Page>
  );
}

function SampleNotice() {
  const say = useSay();
  const navigate = useNavigate();
  const remove = useTell((api) => api.app.removeSample());
  return (
    <Notice title={say("sample.title")}>
      <p>{say("sample.body")}</p>
      <div className="groups-actions">
        <Button
          isDisabled={remove.isPending}
          onPress={() => remove.mutate(undefined, { onSuccess: () => navigate("/") })}
        >
          {say("sample.remove")}
        </Button>
      </div>
      <Problem error={remove.error} />
    </Notice>
  );
}

function PlanList({ group }: { group: Group }) {
  const say = useSay();
  const navigate = useNavigate();
  const plans = usePlans(group.id);
  const summary = usePlanSummary();
  const shown = plans.data ?? [];
  const { chime, volume } = useSettings() ?? firstPlan;
  const recording = offeredFirst(group.studentCount);
  const create = useTell((api, name: string) =>
    api.plans.create({
      groupId: group.id,
      name,
      settings: { ...firstPlan, chime, volume, recording },
    }),
  );
  const copy = useTell((api, plan: Plan) =>
    api.plans.create({
      groupId: group.id,
      name: say("groups.planCopy", { name: plan.name }).slice(0, longestPlanName),
      settings: plan.settings,
    }),
  );
  const archive = useTell((api, id: string) => api.plans.archive({ id }));
  return (
    <>
      <ul className="groups-list">
        {shown.map((plan) => (
          <li key={plan.id} className="groups-row">
            <Link className="groups-name" to={`/groups/${group.id}/plans/${plan.id}`}>
              {plan.name}
            </Link>
            <span className="groups-facts">{summary(plan.settings)}</span>
            <PaperLinks plan={plan} />
            <Menu
              label={say("groups.moreNamed", { name: plan.name })}
              entries={[
                {
                  id: "open",
                  label: say("today.changePlan"),
                  onPress: () => navigate(`/groups/${group.id}/plans/${plan.id}`),
                },
                { id: "copy", label: say("groups.copyPlan"), onPress: () => copy.mutate(plan) },
                // A group without any plan could not start.
                ...(shown.length > 1
                  ? [
                      {
                        id: "archive",
                        label: say("groups.archive"),
                        onPress: () => archive.mutate(plan.id),
                      },
                    ]
                  : []),
              ]}
            />
          </li>
        ))}
      </ul>
      <div>
        <Button
          isDisabled={create.isPending}
          onPress={() =>
            create.mutate(say("groups.planName", { number: shown.length + 1 }), {
              onSuccess: (plan) => navigate(`/groups/${group.id}/plans/${plan.id}`),
            })
          }
        >
          {say("groups.newPlan")}
        </Button>
      </div>
      <Problem error={create.error ?? copy.error ?? archive.error} />
    </>
  );
}

function Details({ group }: { group: Group }) {
  const say = useSay();
  const [name, setName] = useState(group.name);
  const [target, setTarget] = useState(group.target);
  const update = useTell((api, input: { id: string; name: string; target: string }) =>
    api.groups.update(input),
  );
  const isSame = name.trim() === group.name && target.trim() === group.target;
  return (
    <form
      className="groups-details"
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() !== "") update.mutate({ id: group.id, name: name.trim(), target });
      }}
    >
      <TextField label={say("groups.name")} value={name} onChange={setName} maxLength={60} />
      <TextField
        label={say("groups.target")}
        value={target}
        onChange={setTarget}
        rows={2}
        maxLength={300}
        help={say("groups.targetHelp")}
      />
      <Button
        type="submit"
        look="main"
        isDisabled={isSame || name.trim() === "" || update.isPending}
      >
        {say("act.save")}
      </Button>
      <Problem error={update.error} />
    </form>
  );
}
