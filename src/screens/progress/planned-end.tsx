import type { ReactNode } from "react";
import type { Advice } from "../../../shared/advice/advice.ts";
import { lastPlace, rungAt } from "../../../shared/advice/ladder.ts";
import type { Program } from "../../../shared/roster/program.ts";
import { Button } from "../../parts/button.tsx";
import type { useAccept, useDecide } from "../../reading/use-program.ts";
import { wordNewPhase } from "../../words/advice-words.ts";
import { useVoice } from "../../words/use-voice.ts";
import type { Worth } from "./thinned-worth.tsx";

interface PlannedEndProps {
  readonly program: Program;
  readonly advice: Advice;
  readonly studentId: string | null;
  readonly decide: ReturnType<typeof useDecide>;
  readonly accept: ReturnType<typeof useAccept>;
  /** What a mark is worth once the cues are thinner. */
  readonly worth: Worth;
  readonly children: ReactNode;
}

/** Two weeks are over and nothing is decided: four ways on, each kept with its day. */
export function PlannedEnd(props: PlannedEndProps) {
  const { program, advice, studentId, decide, accept, worth, children } = props;
  const voice = useVoice();
  const { say } = voice;
  const { ladder, place } = advice.inputs;
  const about = { groupId: program.groupId, studentId, advice: advice.decision };
  const isPending = decide.isPending || accept.isPending;
  const move = (toPlace: number) => {
    decide.reset();
    const phaseLabel = wordNewPhase(
      voice,
      rungAt(ladder, toPlace),
      program.stepMeansSeconds[toPlace],
    );
    accept.mutate({ ...about, note: "", fromPlace: program.place, toPlace, phaseLabel, worth });
  };
  const keep = (note: string) => {
    accept.reset();
    decide.mutate({ ...about, accepted: true, note });
  };
  const ways = [
    { id: "thin", press: () => move(place + 1) },
    { id: "probe", press: () => move(lastPlace(ladder)) },
    { id: "stop", press: () => keep(say("advice.end.stopNote")) },
    { id: "help", press: () => keep(say("advice.end.helpNote")) },
  ] as const;
  return (
    <div role="group" className="progress-decide" aria-label={say("advice.end.lead")}>
      <p>{say("advice.end.stopHow")}</p>
      <div className="progress-form-actions">
        {ways.map(({ id, press }) => (
          <Button key={id} isDisabled={isPending} onPress={press}>
            {say(`advice.end.${id}`)}
          </Button>
        ))}
        {children}
      </div>
    </div>
  );
}
