import { useState } from "react";
import type { Student } from "../../../shared/roster/roster.ts";
import { useTell } from "../../api/queries.ts";
import { pictureOwners } from "../../class/pictures/own-pictures.ts";
import { PicturePicker } from "../../class/pictures/picture-picker.tsx";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { NumberField, Switch, TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useProgram } from "../../reading/use-program.ts";
import { useFormats, useSay } from "../../text/text.tsx";

/** Where a student's own hold goal starts while the group's is not known. */
const usualGoal = 0.8;

/** One student: name, picture, own target and own hold goal. */
export function EditStudent(props: {
  student: Student;
  others: readonly Student[];
  onClose: () => void;
}) {
  const { student, others, onClose } = props;
  const say = useSay();
  const formats = useFormats();
  const owners = new Map(
    [...pictureOwners(others)].map(([picture, having]) => [
      picture,
      having.map(({ name }) => name).join(", "),
    ]),
  );
  const [name, setName] = useState(student.name);
  const [target, setTarget] = useState(student.target);
  const [picture, setPicture] = useState(student.picture);
  const [goal, setGoal] = useState(student.holdGoal);
  const groupGoal = useProgram(student.groupId)?.goal;
  const update = useTell(
    (api, input: Pick<Student, "id" | "name" | "target" | "picture" | "holdGoal">) =>
      api.students.update(input),
  );
  const isEmpty = name.trim() === "";
  const save = () =>
    update.mutate(
      { id: student.id, name: name.trim(), target, picture, holdGoal: goal },
      { onSuccess: onClose },
    );
  return (
    <Dialog
      title={say("groups.editNamed", { name: student.name })}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{say("act.cancel")}</Button>
          <Button look="main" isDisabled={isEmpty || update.isPending} onPress={save}>
            {say("act.save")}
          </Button>
        </>
      }
    >
      <TextField
        label={say("groups.studentName")}
        value={name}
        onChange={setName}
        maxLength={60}
        help={say("groups.nicknameHelp")}
        problem={isEmpty ? say("refused.name-empty") : undefined}
      />
      <PicturePicker value={picture} owners={owners} onChange={setPicture} />
      <TextField
        label={say("groups.ownTarget")}
        value={target}
        onChange={setTarget}
        rows={2}
        maxLength={300}
        help={say("groups.ownTargetHelp")}
      />
      <Switch
        label={say("groups.hasOwnGoal", {
          goal: formats.percent(groupGoal ?? usualGoal),
        })}
        value={goal !== null}
        onChange={(has) => setGoal(has ? (groupGoal ?? usualGoal) : null)}
      />
      {goal === null ? null : (
        <NumberField
          label={say("groups.ownGoal")}
          help={say("groups.ownGoalHelp")}
          unit="%"
          value={Math.round(100 * goal)}
          minValue={5}
          maxValue={100}
          step={5}
          onChange={(percent) => {
            if (Number.isFinite(percent)) setGoal(percent / 100);
          }}
        />
      )}
      <Problem error={update.error} />
    </Dialog>
  );
}
