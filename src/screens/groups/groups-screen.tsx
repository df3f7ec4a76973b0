import { Link } from "react-router";
import { useGroups, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { NewGroupForm } from "../../parts/new-group-form.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { ArchivedGroups } from "./archived-groups.tsx";
import { MoveButtons, moved } from "./move.tsx";
import "./groups.css";

/** All groups: make one, put them in order, lay one aside. */
export function GroupsScreen() {
  const say = useSay();
  const groups = useGroups();
  const reorder = useTell((api, ids: string[]) => api.groups.reorder({ ids }));
  const archive = useTell((api, id: string) => api.groups.archive({ id }));
  const shown = groups.data ?? [];
  const ids = shown.map(({ id }) => id);

  return (
    <Page title={say("nav.groups")} lead={say("groups.lead")}>
      <ul className="groups-list">
        {shown.map((group, index) => (
          <li key={group.id} className="groups-row">
            <Link className="groups-name" to={`/groups/${group.id}`}>
              {group.name}
            </Link>
            <span className="groups-facts">
              {say("today.students", { count: group.studentCount })}
              {group.isSample ? ` · ${say("today.sampleTag")}` : ""}
            </span>
            <MoveButtons
              name={group.name}
              index={index}
              count={shown.length}
              onMove={(to) => reorder.mutate(moved(ids, index, to))}
            />
            <Button
              look="quiet"
              onPress={() => archive.mutate(group.id)}
              aria-label={say("groups.archiveNamed", { name: group.name })}
            >
              {say("groups.archive")}
            </Button>
          </li>
        ))}
      </ul>
      <Problem error={reorder.error ?? archive.error} />
      <Section title={say("groups.new")}>
        {groups.data === undefined ? null : <NewGroupForm autoFocus={shown.length === 0} />}
      </Section>
      <ArchivedGroups />
    </Page>
  );
}
