import { useState } from "react";
import type { Student } from "../../../shared/roster/roster.ts";
import type { SeenValue } from "../../../shared/session/event.ts";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";
import { CheckRow } from "./check-row.tsx";

type Step = "closed" | "asking" | "list";

/**
 * A look at whomever the teacher chooses, at any time.
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
  const [step, setStep] = useState<Step>("closed");
  const [chosenId, setChosenId] = useState<string | null>(null);
  const chosen = students.find(({ id }) => id === chosenId);
  const close = () => {
    setStep("closed");
    setChosenId(null);
  };
  if (step === "closed") {
    return (
      <Button look="quiet" onPress={() => setStep(isPrivate ? "list" : "asking")}>
        {say("spot.free")}
      </Button>
    );
  }
  return (
    <>
      {step === "asking" ? (
        <div className="spot-row">
          <span>{say("spot.sharedHelp")}</span>
          <Button onPress={() => setStep("list")}>{say("spot.showNames")}</Button>
        </div>
      ) : chosen === undefined ? (
        <div className="spot-row" role="group" aria-label={say("spot.whom")}>
          <span className="spot-name">{say("spot.whom")}</span>
          {students.map(({ id, name }) => (
            <Button key={id} onPress={() => setChosenId(id)}>
              {name}
            </Button>
          ))}
        </div>
      ) : (
        <CheckRow
          name={chosen.name}
          onSay={(value) => {
            onSay(chosen.id, value);
            close();
          }}
        />
      )}
      <Button look="quiet" onPress={close}>
        {say("act.cancel")}
      </Button>
      {isCompared ? null : <span className="spot-note">{say("spot.onlyNote")}</span>}
    </>
  );
}
