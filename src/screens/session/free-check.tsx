import { useState } from "react";
import type { Student } from "../../../shared/roster/roster.ts";
import type { SeenValue } from "../../../shared/session/event.ts";
import { Button } from "../../parts/button.tsx";
import { Panel } from "../../parts/panel.tsx";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useSay } from "../../text/text.tsx";
import { CheckRow } from "./check-row.tsx";

/**
 * A look at whomever the teacher chooses, at any time, on a slip that moves nothing beneath it.
 *
 * @param isPrivate as for SpotCheck; where it is not, the names come only after a second press
 * @param isCompared whether what is seen now is compared with a mark; else it stands for itself
 */
export function FreeCheck(props: {
  students: readonly Student[];
  isPrivate: boolean;
  isCompared: boolean;
  onSay: (studentId: string, value: SeenValue) => void;
}) {
  const say = useSay();
  const { students, isPrivate, isCompared, onSay } = props;
  const [isOpen, setOpen] = useState(false);
  const [showsNames, setShowsNames] = useState(false);
  const [chosenId, setChosenId] = useState<string | null>(null);
  const chosen = students.find(({ id }) => id === chosenId);
  const open = (next: boolean) => {
    setOpen(next);
    setShowsNames(isPrivate);
    setChosenId(null);
  };
  return (
    <Panel label={say("spot.free")} look="quiet" isOpen={isOpen} onOpenChange={open}>
      <div className="spot-free">
        {!showsNames ? (
          <>
            <p>{say("spot.sharedHelp")}</p>
            <Button onPress={() => setShowsNames(true)}>{say("spot.showNames")}</Button>
          </>
        ) : chosen === undefined ? (
          <div className="spot-names" role="group" aria-label={say("spot.whom")}>
            <span className="spot-name">{say("spot.whom")}</span>
            {students.map(({ id, name }) => (
              <SteadyButton key={id} onPress={() => setChosenId(id)}>
                {name}
              </SteadyButton>
            ))}
          </div>
        ) : (
          <CheckRow
            name={chosen.name}
            about={chosen.id}
            isPrivate={isPrivate}
            canBeUnseen={isCompared}
            onSay={(value) => {
              onSay(chosen.id, value);
              open(false);
            }}
          />
        )}
        {isCompared ? null : <p className="spot-note">{say("spot.onlyNote")}</p>}
        <Button look="quiet" onPress={() => open(false)}>
          {say("act.cancel")}
        </Button>
      </div>
    </Panel>
  );
}
