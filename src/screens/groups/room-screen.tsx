import { Link, useParams } from "react-router";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import { useGroups, useStudents, useTell } from "../../api/queries.ts";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { MoveButtons, MoveToPlace, moved } from "./move.tsx";
import { RoomPlan } from "./room-plan.tsx";
import "./groups.css";

/** Where everybody's place in the room is: the order of tiles, strip and cards. */
export function RoomScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const students = useStudents(groupId).data;
  const group = groups.data?.find(({ id }) => id === groupId);
  if (groups.data === undefined || students === undefined)
    return <Page title={say("seats.plan")}>{say("wait")}</Page>;
  if (group === undefined) return <Page title={say("error.missing")}>{null}</Page>;
  return (
    <Page
      title={say("seats.plan")}
      back={<Link to={`/groups/${groupId}`}>{group.name}</Link>}
      lead={say("seats.lead")}
    >
      {students.length === 0 ? (
        <p>
          {say("seats.empty")} <Link to={`/groups/${groupId}`}>{say("groups.addStudents")}</Link>
        </p>
      ) : (
        <Places group={group} students={students} />
      )}
    </Page>
  );
}

function Places({ group, students }: { group: Group; students: readonly Student[] }) {
  const say = useSay();
  const groupId = group.id;
  const reorder = useTell((api, ids: string[]) => api.students.reorder({ groupId, ids }));
  const ids = students.map(({ id }) => id);
  return (
    <>
      <RoomPlan group={group} students={students} onOrder={(order) => reorder.mutate(order)} />
      <Problem error={reorder.error} />
      <Section title={say("seats.byNumber")}>
        <p className="groups-hint">{say("groups.orderHelp")}</p>
        <ol className="groups-list">
          {students.map(({ id, name }, index) => {
            const place = {
              name,
              index,
              count: students.length,
              onMove: (to: number) => reorder.mutate(moved(ids, index, to)),
            };
            return (
              <li key={id} className="groups-row">
                <MoveToPlace {...place} />
                <span className="groups-name">{name}</span>
                <MoveButtons {...place} />
              </li>
            );
          })}
        </ol>
      </Section>
    </>
  );
}
