import { useState } from "react";
import { Button } from "../parts/button.tsx";
import { useSay } from "../text/text.tsx";
import { savePng, saveSvg } from "./save-chart.ts";

/** One of the two ways in which a chart becomes a file. */
export type SaveChart = typeof saveSvg | typeof savePng;

interface SaveButtonsProps {
  /** What is saved, for whoever only hears the buttons. */
  what: string;
  /** Saves it one way or the other; rejects or throws when it cannot be done. */
  onSave: (how: SaveChart) => void | Promise<void>;
}

/** Saves a chart as a drawing or as a picture, and says so when it cannot. */
export function SaveButtons({ what, onSave }: SaveButtonsProps) {
  const say = useSay();
  const [failed, setFailed] = useState(false);
  const save = (how: SaveChart) => async () => {
    try {
      await onSave(how);
      setFailed(false);
    } catch {
      setFailed(true);
    }
  };
  return (
    <div className="figure-saves">
      <Button look="quiet" onPress={save(saveSvg)} aria-label={say("chart.saveSvg", { what })}>
        {say("chart.svg")}
      </Button>
      <Button look="quiet" onPress={save(savePng)} aria-label={say("chart.savePng", { what })}>
        {say("chart.png")}
      </Button>
      {failed ? <p role="alert">{say("chart.saveFailed")}</p> : null}
    </div>
  );
}
