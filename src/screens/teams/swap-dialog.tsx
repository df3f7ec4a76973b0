import { useState } from "react";
import type { TeamsState } from "../../../shared/api/teams.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import type { TeamRound } from "../../../shared/teams/kept.ts";
import { keepsWishes } from "../../../shared/teams/wishes.ts";
import { useTell } from "../../api/queries.ts";
import { useTeamName } from "../../class/teams/use-teams.ts";
import { announce } from "../../parts/announcer.tsx";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Pick } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

interface SwapDialogProps {
  round: TeamRound;
  state: TeamsState;
  students: readonly Student[];
  onClose: () => void;
}

/** Two students change places for this round; offered are only places that keep what has to hold. */
export function SwapDialog({ round: newest, state, students, onClose }: SwapDialogProps) {
  const say = useSay();
  // Held as it was when the dialog opened, so that no name changes between the choice and the press.
  const [round] = useState(newest);
  const nameOf = useTeamName(state.names);
  const placed = students.filter(({ id }) => round.teams.flat().includes(id));
  const [askedId, setAsked] = useState(placed[0]?.id ?? "");
  const [pickedId, setPicked] = useState<string | null>(null);
  const swap = useTell((api, otherId: string) =>
    api.teams.swap({ roundId: round.id, oneId: askedId, otherId, shown: round.teams }),
  );
  const teamOf = (id: string) => round.teams.findIndex((team) => team.includes(id)) + 1;
  const fits = (id: string) => {
    const swapped = round.teams.map((team) =>
      team.map((each) => (each === id ? askedId : each === askedId ? id : each)),
    );
    return keepsWishes(swapped, state.wishes);
  };
  const others = placed.filter(({ id }) => teamOf(id) !== teamOf(askedId) && fits(id));
  const other = others.find(({ id }) => id === pickedId) ?? others[0];
  const done = (moved: Student) => {
    const one = placed.find(({ id }) => id === askedId)?.name ?? "";
    announce(say("teams.said.swapped", { one, other: moved.name }));
    onClose();
  };
  const choice = ({ id, name }: Student) => ({
    value: id,
    label: say("teams.inTeam", { name, team: nameOf(teamOf(id)) }),
  });
  return (
    <Dialog
      title={say("teams.swap")}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{say("act.cancel")}</Button>
          <Button
            look="main"
            isDisabled={other === undefined || swap.isPending}
            onPress={() => {
              if (other !== undefined) swap.mutate(other.id, { onSuccess: () => done(other) });
            }}
          >
            {say("teams.swapNow")}
          </Button>
        </>
      }
    >
      <p>{say("teams.swapHelp")}</p>
      <Pick
        label={say("teams.swapOne")}
        value={askedId}
        onChange={setAsked}
        choices={placed.map(choice)}
      />
      {other === undefined ? (
        <p role="alert">{say("teams.swapNobody")}</p>
      ) : (
        <Pick
          label={say("teams.swapOther")}
          value={other.id}
          onChange={setPicked}
          choices={others.map(choice)}
        />
      )}
      <Problem error={swap.error} />
    </Dialog>
  );
}
