import { useState } from "react";
import type { Advice } from "../../../shared/advice/advice.ts";
import type { Move } from "../../../shared/api/advice.ts";
import type { Program } from "../../../shared/roster/program.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useAccept, useDecide, useDecisions } from "../../reading/use-program.ts";
import { wordAccept, wordNewPhase } from "../../words/advice-words.ts";
import { useVoice } from "../../words/use-voice.ts";
import { wordPhase, wordStep } from "../../words/words.ts";
import { PlannedEnd } from "./planned-end.tsx";
import { ThinnedWorth, type Worth } from "./thinned-worth.tsx";
import { WayOutOfPoints } from "./way-out-of-points.tsx";

interface AdviceDecideProps {
  readonly program: Program;
  readonly advice: Advice;
  /** Null when the advice is about the whole group. */
  readonly studentId: string | null;
}

/** What the teacher does with the advice; kept with the day and the reason. */
export function AdviceDecide({ program, advice, studentId }: AdviceDecideProps) {
  const voice = useVoice();
  const { say } = voice;
  const decide = useDecide();
  const accept = useAccept();
  const [overruling, setOverruling] = useState(false);
  const [worth, setWorth] = useState<Worth>("raised");
  const about = { groupId: program.groupId, studentId, advice: advice.decision };
  const { toPlace, toRung } = advice;
  const moves = toPlace !== advice.inputs.place;
  const isPending = decide.isPending || accept.isPending;
  const agree = () => {
    decide.reset();
    if (!moves) return decide.mutate({ ...about, accepted: true, note: "" });
    const phaseLabel = wordNewPhase(voice, toRung, program.stepMeansSeconds[toPlace]);
    accept.mutate({ ...about, note: "", fromPlace: program.place, toPlace, phaseLabel, worth });
  };
  const overrule = (
    <Button isDisabled={isPending} onPress={() => setOverruling(true)}>
      {say("advice.overrule")}
    </Button>
  );
  return (
    <div className="progress-decide">
      {overruling ? null : (
        <>
          <ThinnedWorth
            program={program}
            // Where the fixed weeks are over, to thin is one of the ways on.
            toPlace={advice.decision === "two-weeks-over" ? program.place + 1 : toPlace}
            value={worth}
            onChange={setWorth}
          />
          <WayOutOfPoints groupId={program.groupId} toRung={toRung} />
        </>
      )}
      {overruling ? (
        <Overrule
          isPending={isPending}
          onCancel={() => setOverruling(false)}
          onKeep={(note) => {
            accept.reset();
            decide.mutate(
              { ...about, accepted: false, note },
              { onSuccess: () => setOverruling(false) },
            );
          }}
        />
      ) : advice.decision === "two-weeks-over" ? (
        <PlannedEnd {...{ program, advice, studentId, decide, accept, worth }}>
          {overrule}
        </PlannedEnd>
      ) : (
        <div className="progress-form-actions">
          <Button isDisabled={isPending} onPress={agree}>
            {moves ? wordAccept(voice, toRung) : say("advice.accept")}
          </Button>
          {overrule}
        </div>
      )}
      <Problem error={decide.error ?? accept.error} />
      <div role="status" className="progress-facts">
        {accept.data === undefined ? null : <Moved move={accept.data} />}
        <LastDecision groupId={program.groupId} studentId={studentId} />
      </div>
    </div>
  );
}

/** Why the teacher sees it differently; nothing is kept without a word. */
function Overrule(props: {
  isPending: boolean;
  onKeep: (note: string) => void;
  onCancel: () => void;
}) {
  const { say } = useVoice();
  const [note, setNote] = useState("");
  const words = note.trim();
  return (
    <>
      <TextField
        label={say("advice.why")}
        help={say("advice.whyHelp")}
        value={note}
        onChange={setNote}
        rows={2}
        maxLength={500}
      />
      <div className="progress-form-actions">
        <Button
          look="main"
          isDisabled={words === "" || props.isPending}
          onPress={() => props.onKeep(words)}
        >
          {say("advice.keepNote")}
        </Button>
        <Button onPress={props.onCancel}>{say("act.cancel")}</Button>
      </div>
    </>
  );
}

/** What the step that was just taken has changed. */
function Moved({ move: { plan, program, phases } }: { move: Move }) {
  const voice = useVoice();
  const { say, formats } = voice;
  const [phase] = phases;
  if (phase === undefined) return null;
  const begins = { phase: wordPhase(voice, phase), day: formats.day(phase.startsOn) };
  const mean = program.stepMeansSeconds[program.place];
  return (
    <p>
      {plan === null
        ? say("advice.done.noPlan", begins)
        : say("advice.done.plan", {
            ...begins,
            plan: plan.name,
            step: wordStep(voice, mean, "thinner-cues"),
          })}
    </p>
  );
}

function LastDecision({ groupId, studentId }: { groupId: string; studentId: string | null }) {
  const { say, formats } = useVoice();
  const [last] = useDecisions(groupId, studentId);
  if (last === undefined) return null;
  return (
    <p>
      {say("advice.last", {
        day: formats.day(last.day),
        accepted: last.accepted ? "yes" : "no",
        advice: say(`advice.${last.advice}`),
        note: last.note,
        hasNote: last.note === "" ? "no" : "yes",
      })}
    </p>
  );
}
