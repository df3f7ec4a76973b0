import { Link } from "react-router";
import { useGroups } from "../../api/queries.ts";
import { Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { LastSession } from "../../reading/last-session.tsx";
import { useSay } from "../../text/text.tsx";
import "./progress.css";

/** The groups whose progress can be looked at. */
export function ProgressScreen() {
  const say = useSay();
  const groups = useGroups();
  if (groups.data === undefined) {
    return (
      <Page title={say("nav.progress")}>
        {groups.error === null ? say("wait") : <Problem error={groups.error} />}
      </Page>
    );
  }
  return (
    <Page title={say("nav.progress")} lead={say("progress.lead")}>
      {groups.data.length === 0 ? (
        <p>
          {say("progress.noGroups")} <Link to="/groups">{say("nav.groups")}</Link>
        </p>
      ) : (
        <ul className="progress-groups">
          {groups.data.map((group) => (
            <li key={group.id}>
              <Link to={`/progress/${group.id}`}>{group.name}</Link>
              <span className="progress-facts">
                {say("today.students", { count: group.studentCount })}
                {group.isSample ? ` · ${say("today.sampleTag")}` : ""}
              </span>
              {group.studentCount === 0 ? null : <LastSession groupId={group.id} />}
            </li>
          ))}
        </ul>
      )}
      <p className="progress-caution">{say("progress.caution")}</p>
    </Page>
  );
}
