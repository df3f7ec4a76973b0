import { type ReactNode, useState } from "react";
import { Button } from "../../../parts/button.tsx";
import { Problem } from "../../../parts/problem.tsx";
import { useVoice } from "../../../words/use-voice.ts";

/** What was drawn, until something it rests on changes, and how often was drawn. */
export interface Drawing<Drawn> {
  readonly drawn: Drawn | null;
  /** Draws so far, those that were not kept among them. */
  readonly times: number;
  readonly keep: (drawn: Drawn) => void;
  /** Applies a change of what is drawn from, which takes the draw back. */
  readonly change: (apply: () => void) => void;
}

export function useDrawing<Drawn>(): Drawing<Drawn> {
  const [drawn, setDrawn] = useState<Drawn | null>(null);
  const [times, setTimes] = useState(0);
  return {
    drawn,
    times,
    keep: (next) => {
      setTimes(times + 1);
      setDrawn(next);
    },
    change: (apply) => {
      apply();
      setDrawn(null);
    },
  };
}

interface DrawFormProps {
  readonly help: string;
  readonly drawing: Pick<Drawing<unknown>, "drawn" | "times">;
  /** What is drawn from. */
  readonly children: ReactNode;
  /** What can be drawn, or why nothing can. */
  readonly before: string;
  /** What was drawn. */
  readonly result: ReactNode;
  /** What belongs to the draw whatever it gives. */
  readonly note?: string;
  /** The press that draws for the first time. */
  readonly drawLabel: string;
  readonly canDraw: boolean;
  readonly onDraw: () => void;
  readonly save: { readonly isPending: boolean; readonly error: unknown };
  readonly onSave: () => void;
  readonly onDone: () => void;
}

/** The form in which a design is drawn and kept: what is drawn from, the draw, and whether it was the first. */
export function DrawForm(props: DrawFormProps) {
  const { say } = useVoice();
  const { drawing, save } = props;
  const { drawn, times } = drawing;
  return (
    <form
      className="progress-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (drawn !== null) props.onSave();
      }}
    >
      <p className="progress-form-wide">{props.help}</p>
      {props.children}
      <div role="status" className="progress-form-wide">
        {drawn === null ? <p>{props.before}</p> : props.result}
        {props.note === undefined ? null : <p className="progress-facts">{props.note}</p>}
        {times > 1 ? <p>{say("phases.drawnTimes", { times })}</p> : null}
      </div>
      <div className="progress-form-actions">
        <Button isDisabled={!props.canDraw} onPress={props.onDraw}>
          {times === 0 ? props.drawLabel : say("designs.drawAgain")}
        </Button>
        <Button look="main" type="submit" isDisabled={drawn === null || save.isPending}>
          {say("act.save")}
        </Button>
        <Button onPress={props.onDone}>{say("act.cancel")}</Button>
      </div>
      <Problem error={save.error} />
    </form>
  );
}
