import type { TeamsState } from "../../../shared/api/teams.ts";
import { dayNumber, weekdayOf } from "../../../shared/calendar/calendar.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import type { TeamSettings } from "../../../shared/teams/kept.ts";
import { fitsNow, roundOn, termMixing } from "../../../shared/teams/kept-rounds.ts";
import { useTeamName } from "../../class/teams/use-teams.ts";
import { Button } from "../../parts/button.tsx";
import { More } from "../../parts/more.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { roundsToDeal, useDeal } from "./use-deal.ts";

interface DealSectionProps {
  groupId: string;
  state: TeamsState;
  settings: TeamSettings;
  students: readonly Student[];
}

/** The rounds to come: how well they mix the class, whether they still fit, and dealing them anew. */
export function DealSection({ groupId, state, settings, students }: DealSectionProps) {
  const say = useSay();
  const ids = students.map(({ id }) => id);
  const dealing = useDeal(groupId);
  const held = roundOn(state.rounds, state.today)?.number ?? 0;
  const toCome = state.rounds.filter(({ number }) => number > held);
  const isFirst = state.rounds.length === 0;
  const hasEnough = toCome.length >= settings.rounds - held;
  const fits =
    hasEnough &&
    toCome.every(
      ({ teams, startsOn }) =>
        fitsNow(teams, ids, settings.size, state.wishes) &&
        weekdayOf(dayNumber(startsOn)) === settings.weekday,
    );
  const { mixing, bound } = termMixing(state.rounds, ids);
  const button = (
    <Button look={fits ? "plain" : "main"} isDisabled={dealing.isDealing} onPress={dealing.deal}>
      {dealing.isDealing
        ? say("teams.dealing")
        : isFirst
          ? say("teams.deal", { rounds: roundsToDeal(state) })
          : say("teams.dealAnew")}
    </Button>
  );
  return (
    <Section title={say("teams.rounds")}>
      {isFirst ? <p>{say("teams.noneYet")}</p> : null}
      {isFirst || !fits ? null : (
        <p>
          {say("teams.mixing", {
            pairs: mixing.repeatedPairs,
            most: mixing.mostMeetings,
            repeats: mixing.objective,
            bound,
          })}{" "}
          {say("teams.mates", { mates: mixing.fewestMates })}
        </p>
      )}
      {isFirst || fits ? (
        <div className="teams-acts">{button}</div>
      ) : (
        <Notice title={say("teams.unfit")}>
          <p>{say("teams.unfitHelp")}</p>
          <div className="teams-acts">{button}</div>
        </Notice>
      )}
      <p role="status" className="teams-help">
        {dealing.isDealing ? say("teams.dealingHelp") : ""}
      </p>
      {dealing.problem === null ? null : (
        <p role="alert">{say(`teams.problem.${dealing.problem}`)}</p>
      )}
      <Problem error={dealing.error} />
      {toCome.length === 0 ? null : <RoundsToCome state={state} students={students} held={held} />}
    </Section>
  );
}

function RoundsToCome(props: { state: TeamsState; students: readonly Student[]; held: number }) {
  const say = useSay();
  const formats = useFormats();
  const { state, students, held } = props;
  const nameOf = useTeamName(state.names);
  const nameById = new Map(students.map(({ id, name }) => [id, name]));
  return (
    <More label={say("teams.toCome")}>
      <ol className="teams-rounds" start={held + 1}>
        {state.rounds
          .filter(({ number }) => number > held)
          .map(({ id, startsOn, teams }) => (
            <li key={id}>
              <strong>{say("teams.from", { day: formats.day(startsOn) })}</strong>
              <ul>
                {teams.map((team, at) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: a team is its place
                  <li key={at}>
                    {nameOf(at + 1)}:{" "}
                    {formats.list(team.flatMap((student) => nameById.get(student) ?? []))}
                  </li>
                ))}
              </ul>
            </li>
          ))}
      </ol>
    </More>
  );
}
