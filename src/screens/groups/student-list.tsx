import { useState } from "react";
import { Link, useNavigate } from "react-router";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import { useStudents, useTell } from "../../api/queries.ts";
import { EraseDialog } from "../../class/archive/erase-dialog.tsx";
import {
  haveOwnPictures,
  pictureOwners,
  picturesToGive,
} from "../../class/pictures/own-pictures.ts";
import { Picture } from "../../class/pictures/picture.tsx";
import { pictureNamed } from "../../class/pictures/picture-names.ts";
import { Button } from "../../parts/button.tsx";
import { Menu } from "../../parts/menu.tsx";
import { More } from "../../parts/more.tsx";
import { Problem } from "../../parts/problem.tsx";
import { forgetForms } from "../../parts/sheet/use-kept-form.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { AddStudents } from "./add-students.tsx";
import { EditStudent } from "./edit-student.tsx";
import { MoveStudent, useGroupsToMoveTo } from "./move-student.tsx";

/** The students of a group in the order of the room: picture, name, and one menu each. */
export function StudentList({ group }: { group: Group }) {
  const say = useSay();
  const formats = useFormats();
  const navigate = useNavigate();
  const inUse = useStudents(group.id);
  const inArchive = useStudents(group.id, true);
  const [editing, setEditing] = useState<Student | null>(null);
  const [moving, setMoving] = useState<Student | null>(null);
  const [erasing, setErasing] = useState<Student | null>(null);
  const [left, setLeft] = useState<Student | null>(null);
  const archive = useTell((api, id: string) => api.students.archive({ id }));
  const restore = useTell((api, id: string) => api.students.restore({ id }));
  const canMove = useGroupsToMoveTo(group).length > 0;
  const shown = inUse.data ?? [];
  const archived = inArchive.data ?? [];
  const isUndone = left !== null && shown.some(({ id }) => id === left.id);

  return (
    <>
      <ul className="groups-students">
        {shown.map((student) => (
          <li key={student.id} className="groups-student">
            <StudentPicture student={student} />
            <div className="groups-student-words">
              <Link className="groups-name" to={`/progress/${group.id}/${student.id}`}>
                {student.name}
              </Link>
              {student.target === "" ? null : <span>{student.target}</span>}
              {student.holdGoal === null ? null : (
                <span>{say("groups.ownGoalIs", { goal: formats.percent(student.holdGoal) })}</span>
              )}
            </div>
            <Menu
              label={say("groups.moreNamed", { name: student.name })}
              entries={[
                { id: "edit", label: say("groups.edit"), onPress: () => setEditing(student) },
                {
                  id: "progress",
                  label: say("today.seeProgress"),
                  onPress: () => navigate(`/progress/${group.id}/${student.id}`),
                },
                {
                  id: "agreed",
                  label: say("agreed.link"),
                  onPress: () => navigate(`/groups/${group.id}/students/${student.id}/agreed`),
                },
                {
                  id: "home-card",
                  label: say("homeCard.link"),
                  onPress: () => navigate(`/groups/${group.id}/students/${student.id}/home-card`),
                },
                ...(canMove
                  ? [{ id: "move", label: say("groups.move"), onPress: () => setMoving(student) }]
                  : []),
                {
                  id: "contract",
                  label: say("contract.link"),
                  onPress: () => navigate(`/groups/${group.id}/students/${student.id}/contract`),
                },
                {
                  id: "archive",
                  label: say("groups.archive"),
                  onPress: () => archive.mutate(student.id, { onSuccess: () => setLeft(student) }),
                },
              ]}
            />
          </li>
        ))}
      </ul>
      <div className="groups-add-row" role="status">
        {left === null || isUndone ? null : (
          <>
            <p>{say("groups.archivedNow", { name: left.name })}</p>
            <Button look="quiet" onPress={() => restore.mutate(left.id)}>
              {say("act.undo")}
            </Button>
          </>
        )}
      </div>
      <Problem error={archive.error ?? restore.error} />
      <OwnPictures students={shown} />
      {inUse.data === undefined ? null : (
        <AddStudents groupId={group.id} present={shown} archived={archived} />
      )}
      <ArchivedStudents
        students={archived}
        onRestore={(student) => restore.mutate(student.id)}
        onErase={setErasing}
      />
      {moving === null ? null : <MoveStudent student={moving} onClose={() => setMoving(null)} />}
      {editing === null ? null : (
        <EditStudent
          key={editing.id}
          student={editing}
          others={shown.filter(({ id }) => id !== editing.id)}
          onClose={() => setEditing(null)}
        />
      )}
      {erasing === null ? null : (
        <EraseStudent student={erasing} onClose={() => setErasing(null)} />
      )}
    </>
  );
}

function ArchivedStudents(props: {
  students: readonly Student[];
  onRestore: (student: Student) => void;
  onErase: (student: Student) => void;
}) {
  const say = useSay();
  if (props.students.length === 0) return null;
  return (
    <More label={say("groups.archivedStudents", { count: props.students.length })}>
      <p>{say("groups.archivedHelp")}</p>
      <ul className="groups-list">
        {props.students.map((student) => (
          <li key={student.id} className="groups-row">
            <span className="groups-name">{student.name}</span>
            <Button
              onPress={() => props.onRestore(student)}
              aria-label={say("groups.restoreNamed", { name: student.name })}
            >
              {say("groups.restore")}
            </Button>
            <Button
              look="quiet"
              onPress={() => props.onErase(student)}
              aria-label={say("groups.eraseNamed", { name: student.name })}
            >
              {say("groups.erase")}
            </Button>
          </li>
        ))}
      </ul>
    </More>
  );
}

function StudentPicture({ student }: { student: Student }) {
  const picture = pictureNamed(student.picture);
  return picture === null ? null : <Picture name={picture} />;
}

/** What is missing until pictures alone can stand on the shared screen, and the quick way there. */
function OwnPictures({ students }: { students: readonly Student[] }) {
  const say = useSay();
  const formats = useFormats();
  const toGive = picturesToGive(students);
  const give = useTell(async (api) => {
    for (const one of toGive) await api.students.update(one);
  });
  const shared = [...pictureOwners(students).values()].filter((having) => having.length > 1);
  return (
    <div className="groups-pictures">
      {shared.map((having) => (
        <p key={having[0]?.id}>
          {say("picture.sharedBy", { names: formats.list(having.map(({ name }) => name)) })}
        </p>
      ))}
      {students.length > 0 && haveOwnPictures(students) ? <p>{say("picture.allOwn")}</p> : null}
      {toGive.length > 0 ? (
        <Button isDisabled={give.isPending} onPress={() => give.mutate(undefined)}>
          {say("picture.giveEach")}
        </Button>
      ) : null}
      <Problem error={give.error} />
    </div>
  );
}

function EraseStudent({ student, onClose }: { student: Student; onClose: () => void }) {
  const say = useSay();
  const erase = useTell((api, id: string) => api.students.erase({ id }));
  return (
    <EraseDialog
      title={say("groups.eraseNamed", { name: student.name })}
      label={say("groups.eraseNow")}
      isErased={erase.data !== undefined}
      isPending={erase.isPending}
      error={erase.error}
      onErase={() => erase.mutate(student.id, { onSuccess: () => forgetForms(student.id) })}
      onClose={onClose}
    >
      <p>
        {erase.data === undefined
          ? say("groups.eraseHelp")
          : say("groups.erased", { events: erase.data.events, backups: erase.data.backups })}
      </p>
    </EraseDialog>
  );
}
