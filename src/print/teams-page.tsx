import { Link, useParams } from "react-router";
import type { TeamsState } from "../../shared/api/teams.ts";
import type { Student } from "../../shared/roster/roster.ts";
import { roundToShow } from "../../shared/teams/kept-rounds.ts";
import { useGroups, useStudents } from "../api/queries.ts";
import { useTeamName, useTeams } from "../class/teams/use-teams.ts";
import { useFormats, useSay } from "../text/text.tsx";
import { intoSheets } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { Sheet } from "./sheet.tsx";
import "./teams-paper.css";

interface PaperTeam {
  readonly name: string;
  readonly members: readonly Student[];
}

/** What a sheet holds below its heading, A4 or Letter, and what a team takes beside its lines, in mm. */
const sheetMm = 222;
const aroundMm = 17;
/** A line of each size in mm, and how many letters surely fit it; a longer name takes another line. */
const sizes = {
  normal: { nameMm: 8.5, nameLetters: 22, memberMm: 6.6, memberLetters: 28 },
  large: { nameMm: 12.7, nameLetters: 14, memberMm: 10.2, memberLetters: 18 },
};

const linesOf = (text: string, letters: number): number =>
  Math.max(1, Math.ceil(text.length / letters));

/** Two teams stand side by side; how many fit a sheet, and whether they can be read from afar. */
function layOut(teams: readonly PaperTeam[]): { onSheet: number; isLarge: boolean } {
  const rows = (size: (typeof sizes)["large"]) => {
    const heights = teams.map(({ name, members }) => {
      const lines = members.reduce((sum, each) => sum + linesOf(each.name, size.memberLetters), 0);
      return aroundMm + size.nameMm * linesOf(name, size.nameLetters) + size.memberMm * lines;
    });
    return Math.max(1, Math.floor(sheetMm / Math.max(...heights)));
  };
  const isLarge = 2 * rows(sizes.large) >= teams.length;
  return { onSheet: 2 * rows(isLarge ? sizes.large : sizes.normal), isLarge };
}

/** Who is in which team this week, for the wall: names and nothing else. */
export function TeamsPage() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const students = useStudents(groupId);
  const group = groups.data?.find(({ id }) => id === groupId);
  const state = useTeams(groupId);
  if (group === undefined || students.data === undefined || state === undefined) {
    const isMissing = groups.data !== undefined && group === undefined;
    return <PrintGap error={groups.error ?? students.error} isMissing={isMissing} />;
  }
  const title = say("teams.paperTitle", { group: group.name });
  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}/teams`}>{say("teams.title")}</Link>}
      fileName={title}
      notes={
        roundToShow(state.rounds, state.today) === null ? <p>{say("teams.noneYet")}</p> : undefined
      }
    >
      <TeamSheets state={state} students={students.data} title={title} />
    </PrintPage>
  );
}

function TeamSheets(props: { state: TeamsState; students: readonly Student[]; title: string }) {
  const say = useSay();
  const formats = useFormats();
  const { state, students, title } = props;
  const nameOf = useTeamName(state.names);
  const round = roundToShow(state.rounds, state.today);
  if (round === null) return null;
  const teams = round.teams.map((studentIds, at) => ({
    name: nameOf(at + 1),
    members: students.filter(({ id }) => studentIds.includes(id) && !state.outIds.includes(id)),
  }));
  const { onSheet, isLarge } = layOut(teams);
  const sheets = intoSheets(teams, onSheet);
  return sheets.map((onThis, index) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
    <Sheet key={index} number={index + 1} count={sheets.length} kind="text">
      <h2>{`${title} · ${say("teams.from", { day: formats.day(round.startsOn) })}`}</h2>
      <div className={isLarge ? "teams-paper teams-paper-large" : "teams-paper"}>
        {onThis.map(({ name, members }) => (
          <section key={name}>
            <h3>{name}</h3>
            <ul>
              {members.map((member) => (
                <li key={member.id}>{member.name}</li>
              ))}
            </ul>
          </section>
        ))}
      </div>
    </Sheet>
  ));
}
