import { useState } from "react";
import { lastPlace, rungAt } from "../../../shared/advice/ladder.ts";
import type { KeptProgram, Program } from "../../../shared/roster/program.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { NumberField, Pick, TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useVoice } from "../../words/use-voice.ts";
import { wordStep } from "../../words/words.ts";
import { readSteps } from "./read-steps.ts";

/** The program's goal, ladder and place, to look at and to change. */
export function ProgramFields({ program, onDone }: { program: Program; onDone: () => void }) {
  const voice = useVoice();
  const { say } = voice;
  const [goal, setGoal] = useState(Math.round(100 * program.goal));
  const [steps, setSteps] = useState(program.stepMeansSeconds.map((mean) => mean / 60).join(" "));
  const [place, setPlace] = useState(program.place);
  const save = useTell((api, next: Omit<KeptProgram, "placeSince" | "placeSinceMs">) =>
    api.program.save(next),
  );
  const means = readSteps(steps);
  const ladder = { cueSteps: means?.length ?? 1 };
  const places = Array.from({ length: lastPlace(ladder) + 1 }, (_, at) => at);
  const chosen = Math.min(place, lastPlace(ladder));
  const hasGoal = goal >= 5 && goal <= 100;
  return (
    <form
      className="progress-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (means === null || !hasGoal) return;
        const { groupId } = program;
        save.mutate(
          { groupId, goal: goal / 100, stepMeansSeconds: means, place: chosen },
          { onSuccess: onDone },
        );
      }}
    >
      <NumberField
        label={say("program.goal")}
        unit={say("program.percent")}
        help={say("program.goalHelp")}
        value={goal}
        minValue={5}
        maxValue={100}
        step={5}
        onChange={setGoal}
      />
      <TextField
        label={say("program.steps")}
        help={say("program.stepsHelp")}
        value={steps}
        onChange={setSteps}
        maxLength={80}
        problem={means === null ? say("program.stepsBad") : undefined}
      />
      <Pick
        label={say("program.place")}
        value={String(chosen)}
        onChange={(value) => setPlace(Number(value))}
        choices={places.map((at) => ({
          value: String(at),
          label: wordStep(voice, means?.[at], rungAt(ladder, at)),
        }))}
      />
      <div className="progress-form-actions">
        <Button look="main" type="submit" isDisabled={means === null || !hasGoal || save.isPending}>
          {say("act.save")}
        </Button>
        <Button onPress={onDone}>{say("act.cancel")}</Button>
      </div>
      <Problem error={save.error} />
    </form>
  );
}
