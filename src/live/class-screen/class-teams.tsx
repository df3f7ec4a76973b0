import { useAsk } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";
import "./class-teams.css";

/**
 * The teams' names and whether each met its goal, for the class to see once its seatwork has ended, where the
 * adult shows them. No student's name and no number: nobody's marks can be worked out of it.
 */
export function ClassTeams({ sessionId }: { sessionId: string }) {
  const say = useSay();
  const teams = useAsk("teams", ["class", sessionId], (api) =>
    api.teams.onClassScreen({ sessionId }),
  ).data;
  if (teams === undefined || teams.length === 0) return null;
  return (
    <ul className="class-teams" aria-label={say("teams.onScreen")}>
      {teams.map(({ name, outcome }, at) => (
        // A team has no id and may have no name; its number is its place in the list, which never changes order.
        // biome-ignore lint/suspicious/noArrayIndexKey: the place is what tells two teams apart
        <li key={at}>
          <strong>{name === "" ? say("teams.numbered", { team: at + 1 }) : name}</strong>
          {outcome === "met" || outcome === "not-yet" ? (
            <span>{say(`teams.onScreen.${outcome}`)}</span>
          ) : null}
        </li>
      ))}
    </ul>
  );
}
