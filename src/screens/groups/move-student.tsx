import { useState } from "react";
import { Link } from "react-router";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import { useGroups, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Choices } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** The groups that a student of one group can move to: the others; nobody moves into or out of the sample. */
export function useGroupsToMoveTo(from: Pick<Group, "id" | "isSample">): readonly Group[] {
  const groups = useGroups().data ?? [];
  if (from.isSample) return [];
  return groups.filter(({ id, isSample }) => id !== from.id && !isSample);
}

interface MoveStudentProps {
  student: Student;
  onClose: () => void;
}

/** Moves a student to another group, after saying what becomes of what was recorded. */
export function MoveStudent({ student, onClose }: MoveStudentProps) {
  const say = useSay();
  const { name } = student;
  const groups = useGroupsToMoveTo({ id: student.groupId, isSample: false });
  const [to, setTo] = useState(groups[0]?.id ?? "");
  const move = useTell((api, groupId: string) => api.students.move({ id: student.id, groupId }));
  const target = groups.find(({ id }) => id === to);
  return (
    <Dialog
      title={say("groups.moveNamed", { name })}
      isOpen
      onClose={onClose}
      actions={
        move.isSuccess ? (
          <Button look="main" onPress={onClose}>
            {say("act.close")}
          </Button>
        ) : (
          <>
            <Button onPress={onClose}>{say("act.cancel")}</Button>
            <Button
              look="main"
              isDisabled={target === undefined || move.isPending}
              onPress={() => move.mutate(to)}
            >
              {say("groups.moveNow")}
            </Button>
          </>
        )
      }
    >
      {move.isSuccess && target !== undefined ? (
        <p role="status">
          {say("groups.moved", { name, group: target.name })}{" "}
          <Link to={`/groups/${target.id}`}>{say("groups.movedOpen")}</Link>
        </p>
      ) : (
        <>
          <p>{say("groups.moveHelp", { name })}</p>
          <Choices
            label={say("groups.moveTo")}
            value={to}
            choices={groups.map(({ id, name: label }) => ({ value: id, label }))}
            onChange={setTo}
          />
        </>
      )}
      <Problem error={move.error} />
    </Dialog>
  );
}
