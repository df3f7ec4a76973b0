import { Link, useParams } from "react-router";
import type { TeamsState } from "../../../shared/api/teams.ts";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import { roundToShow } from "../../../shared/teams/kept-rounds.ts";
import { useGroups, useStudents } from "../../api/queries.ts";
import { useTeams } from "../../class/teams/use-teams.ts";
import { More } from "../../parts/more.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { DealSection } from "./deal-section.tsx";
import { TeamNames } from "./team-names.tsx";
import { TermForm } from "./term-form.tsx";
import { TodaysTeams } from "./todays-teams.tsx";
import { Wishes } from "./wishes.tsx";
import "./teams.css";

/** A group's teams: who is with whom this week, and how they are dealt. For the adult. */
export function TeamsScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups().data;
  const group = groups?.find(({ id }) => id === groupId);
  const state = useTeams(groupId);
  const students = useStudents(groupId).data;
  if (groups !== undefined && group === undefined) {
    return <Page title={say("error.missing")}>{null}</Page>;
  }
  if (group === undefined || state === undefined || students === undefined) {
    return <Page title={say("teams.title")}>{say("wait")}</Page>;
  }
  return <Known group={group} state={state} students={students} />;
}

interface KnownProps {
  group: Group;
  state: TeamsState;
  students: readonly Student[];
}

function Known({ group, state, students: roster }: KnownProps) {
  const say = useSay();
  const formats = useFormats();
  const students = roster.filter(({ id }) => !state.outIds.includes(id));
  const out = roster.filter(({ id }) => state.outIds.includes(id));
  const { settings, rounds, today } = state;
  const round = roundToShow(rounds, today);
  const groupId = group.id;
  const shared = { groupId, state, students };
  const hasTeams = settings !== null && round !== null;
  return (
    <Page
      title={say("teams.title")}
      back={<Link to={`/groups/${groupId}`}>{group.name}</Link>}
      lead={say("teams.lead")}
      actions={
        hasTeams ? <Link to={`/print/teams/${groupId}`}>{say("teams.print")}</Link> : undefined
      }
    >
      {out.length === 0 ? null : (
        <p className="teams-help">
          {say("teams.out", { names: formats.list(out.map(({ name }) => name)) })}
        </p>
      )}
      {students.length < 2 ? (
        <p>
          {say("teams.tooFew")} <Link to={`/groups/${groupId}`}>{say("groups.addStudents")}</Link>
        </p>
      ) : (
        <>
          {hasTeams ? <TodaysTeams {...shared} settings={settings} round={round} /> : null}
          {settings === null ? null : <DealSection {...shared} settings={settings} />}
          {settings === null ? (
            <Section title={say("teams.term")}>
              <TermForm {...shared} />
            </Section>
          ) : (
            <>
              <More label={say("teams.term")}>
                <TermForm {...shared} />
              </More>
              <Wishes {...shared} />
              <TeamNames {...shared} settings={settings} />
            </>
          )}
        </>
      )}
    </Page>
  );
}
