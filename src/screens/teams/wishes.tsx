import { useState } from "react";
import { CheckboxGroup, Label } from "react-aria-components";
import type { TeamsState } from "../../../shared/api/teams.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import type { TeamWish } from "../../../shared/teams/kept.ts";
import { wishKinds } from "../../../shared/teams/kept.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { CheckBox } from "../../parts/check-box.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Choices } from "../../parts/field.tsx";
import { More } from "../../parts/more.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

interface WishesProps {
  groupId: string;
  state: TeamsState;
  students: readonly Student[];
}

/** Who is never or always in one team; closed at first, because it is for the adult's eyes. */
export function Wishes({ groupId, state, students }: WishesProps) {
  const say = useSay();
  const formats = useFormats();
  const [isAdding, setAdding] = useState(false);
  const save = useTell((api, wishes: TeamWish[]) =>
    api.teams.saveWishes({ groupId, wishes, before: state.wishes }),
  );
  const nameById = new Map(students.map(({ id, name }) => [id, name]));
  const worded = ({ kind, studentIds }: TeamWish) =>
    say(`teams.wish.${kind}`, {
      names: formats.list(studentIds.flatMap((id) => nameById.get(id) ?? [])),
    });
  return (
    <More label={say("teams.wishes", { count: state.wishes.length })}>
      <p className="teams-help">{say("teams.wishesHelp")}</p>
      <ul className="teams-wishes">
        {state.wishes.map((wish) => (
          <li key={JSON.stringify(wish)}>
            <span>{worded(wish)}</span>
            <Button
              look="quiet"
              aria-label={say("teams.wishRemove", { wish: worded(wish) })}
              onPress={() => save.mutate(state.wishes.filter((each) => each !== wish))}
            >
              {say("act.remove")}
            </Button>
          </li>
        ))}
      </ul>
      <Button onPress={() => setAdding(true)}>{say("teams.wishAdd")}</Button>
      <Problem error={save.error} />
      {isAdding ? (
        <WishDialog
          students={students}
          error={save.error}
          onClose={() => setAdding(false)}
          onAdd={(wish) =>
            save.mutate([...state.wishes, wish], { onSuccess: () => setAdding(false) })
          }
        />
      ) : null}
    </More>
  );
}

interface WishDialogProps {
  students: readonly Student[];
  error: unknown;
  onAdd: (wish: TeamWish) => void;
  onClose: () => void;
}

function WishDialog({ students, error, onAdd, onClose }: WishDialogProps) {
  const say = useSay();
  const [kind, setKind] = useState<TeamWish["kind"]>("apart");
  const [studentIds, setStudentIds] = useState<string[]>([]);
  return (
    <Dialog
      title={say("teams.wishAdd")}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{say("act.cancel")}</Button>
          <Button
            look="main"
            isDisabled={studentIds.length < 2 || studentIds.length > 12}
            onPress={() => onAdd({ kind, studentIds })}
          >
            {say("act.save")}
          </Button>
        </>
      }
    >
      <Choices
        label={say("teams.wishKind")}
        inRow
        value={kind}
        onChange={setKind}
        choices={wishKinds.map((value) => ({ value, label: say(`teams.wishKind.${value}`) }))}
      />
      <CheckboxGroup value={studentIds} onChange={setStudentIds} className="teams-who">
        <Label>{say("teams.wishWho")}</Label>
        {students.map(({ id, name }) => (
          <CheckBox key={id} value={id}>
            {name}
          </CheckBox>
        ))}
      </CheckboxGroup>
      <Problem error={error} />
    </Dialog>
  );
}
