import { useState } from "react";
import type { TeamsState } from "../../../shared/api/teams.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import type { TeamRound, TeamSettings } from "../../../shared/teams/kept.ts";
import { useTell } from "../../api/queries.ts";
import { useTeamName } from "../../class/teams/use-teams.ts";
import { announce } from "../../parts/announcer.tsx";
import { Button } from "../../parts/button.tsx";
import { Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { SwapDialog } from "./swap-dialog.tsx";

interface TodaysTeamsProps {
  groupId: string;
  state: TeamsState;
  settings: TeamSettings;
  students: readonly Student[];
  round: TeamRound;
}

/** Who is in which team today, and whether the team goal is met; never how nearly. */
export function TodaysTeams({ groupId, state, settings, students, round }: TodaysTeamsProps) {
  const say = useSay();
  const formats = useFormats();
  const nameOf = useTeamName(state.names);
  const [isSwapping, setSwapping] = useState(false);
  const { today } = state;
  const give = useTell((api) => api.teams.givePoints({ groupId, day: today }));
  const nameById = new Map(students.map(({ id, name }) => [id, name]));
  const absent = students.filter(({ id }) => state.absentIds.includes(id));
  const next = state.rounds.find(({ number }) => number === round.number + 1);
  const hasBegun = round.startsOn <= today;
  const pays = settings.goal !== null && settings.points > 0 && state.earns;
  const hasOutcome = state.teams.some(({ outcome }) => outcome === "met" || outcome === "not-yet");
  return (
    <Section
      title={
        hasBegun
          ? say("teams.today", { round: round.number })
          : say("teams.firstFrom", { day: formats.day(round.startsOn) })
      }
      actions={<Button onPress={() => setSwapping(true)}>{say("teams.swap")}</Button>}
    >
      <ul className="teams-cards">
        {state.teams.map(({ team, studentIds, outcome }) => (
          <li key={team} className="teams-card">
            <h3>{nameOf(team)}</h3>
            <ul>
              {studentIds.map((id) => (
                <li key={id}>{nameById.get(id)}</li>
              ))}
            </ul>
            {outcome === null ? null : (
              <p className="teams-outcome">{say(`teams.outcome.${outcome}`)}</p>
            )}
          </li>
        ))}
      </ul>
      {absent.length === 0 ? null : (
        <p>{say("teams.absent", { names: formats.list(absent.map(({ name }) => name)) })}</p>
      )}
      <NotKept state={state} nameById={nameById} />
      <p className="teams-help">
        {next === undefined
          ? say("teams.lastRound")
          : say("teams.until", { day: formats.day(next.startsOn) })}
      </p>
      {pays && hasBegun ? (
        <div className="teams-acts">
          <Button
            isDisabled={!hasOutcome || state.arePointsGiven || give.isPending}
            onPress={() =>
              give.mutate(undefined, { onSuccess: () => announce(say("teams.said.given")) })
            }
          >
            {say("teams.give", { points: settings.points })}
          </Button>
          <span role="status">
            {state.arePointsGiven
              ? say("teams.given")
              : hasOutcome
                ? ""
                : say("teams.nothingToGive")}
          </span>
        </div>
      ) : null}
      <Problem error={give.error} />
      {pays && state.earlier !== null ? (
        <EarlierPoints
          key={state.earlier.day}
          groupId={groupId}
          earlier={state.earlier}
          names={state.names}
          points={settings.points}
        />
      ) : null}
      {isSwapping ? (
        <SwapDialog
          round={round}
          state={state}
          students={students}
          onClose={() => setSwapping(false)}
        />
      ) : null}
    </Section>
  );
}

interface EarlierProps {
  groupId: string;
  earlier: NonNullable<TeamsState["earlier"]>;
  names: readonly string[];
  points: number;
}

/** The points of the last day with seatwork: its cards may have been typed in since. */
function EarlierPoints({ groupId, earlier, names, points }: EarlierProps) {
  const say = useSay();
  const formats = useFormats();
  const nameOf = useTeamName(names);
  const give = useTell((api) => api.teams.givePoints({ groupId, day: earlier.day }));
  const day = formats.day(earlier.day);
  if (earlier.met.length === 0 && !give.isSuccess) return null;
  const said = say("teams.givenOn", { day });
  return (
    <>
      <div className="teams-acts">
        <Button
          isDisabled={earlier.arePointsGiven || give.isPending}
          onPress={() => give.mutate(undefined, { onSuccess: () => announce(said) })}
        >
          {say("teams.giveOn", { day, points })}
        </Button>
        <span role="status">
          {earlier.arePointsGiven
            ? said
            : say("teams.metOn", { teams: formats.list(earlier.met.map(nameOf)) })}
        </span>
      </div>
      <Problem error={give.error} />
    </>
  );
}

/** What today's teams cannot keep of what must hold; nothing where they keep it all. */
function NotKept(props: { state: TeamsState; nameById: ReadonlyMap<string, string> }) {
  const say = useSay();
  const formats = useFormats();
  const { unmet, isUneven } = props.state;
  if (unmet.length === 0) return isUneven ? <p role="note">{say("teams.uneven")}</p> : null;
  const wishes = unmet.map(({ kind, studentIds }) => {
    const names = studentIds.flatMap((id) => props.nameById.get(id) ?? []);
    return say(`teams.wish.${kind}`, { names: formats.list(names) });
  });
  return <p role="note">{say("teams.unmet", { wishes: wishes.join("; ") })}</p>;
}
