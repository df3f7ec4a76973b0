import { useState } from "react";
import type { ChimeName } from "../../shared/plan/plan.ts";
import { Button } from "../parts/button.tsx";
import { Dialog } from "../parts/dialog.tsx";
import { Range } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import type { SoundFailure } from "../sound/decide-start.ts";
import { usePreview } from "../sound/use-preview.ts";
import { useFormats, useSay } from "../text/text.tsx";

interface SoundCheckProps {
  isOpen: boolean;
  chime: ChimeName;
  plannedVolume: number;
  onDone: (checked: { wasHeard: boolean; volume: number }) => void;
  onCancel: () => void;
}

type Result = "not-tried" | "heard" | SoundFailure;

/** Before the first session: hear the chime where the class will hear it, and set how loud it is. */
export function SoundCheck(props: SoundCheckProps) {
  const { isOpen, chime, plannedVolume, onDone, onCancel } = props;
  const say = useSay();
  const formats = useFormats();
  const [volume, setVolume] = useState(plannedVolume);
  const preview = usePreview();
  const [result, setResult] = useState<Result>("not-tried");
  const hear = async () => setResult((await preview(chime, volume)) ?? "heard");
  const isSilent = volume === 0;
  const turn = (to: number) => {
    setVolume(to);
    // What was heard before it was turned down to nothing has to be heard again.
    if (to === 0) setResult("not-tried");
  };
  return (
    <Dialog
      title={say("soundCheck.title")}
      isOpen={isOpen}
      onClose={onCancel}
      actions={
        <>
          <Button onPress={onCancel}>{say("act.cancel")}</Button>
          <Button
            look={result === "not-tried" ? "main" : "plain"}
            isDisabled={isSilent}
            onPress={hear}
          >
            {say("soundCheck.hear")}
          </Button>
          <Button
            look={result === "not-tried" ? "plain" : "main"}
            isDisabled={isSilent}
            onPress={() => onDone({ wasHeard: result === "heard", volume })}
          >
            {say("soundCheck.start")}
          </Button>
        </>
      }
    >
      <p>{say("soundCheck.body")}</p>
      <p>{say("soundCheck.caution")}</p>
      <Range
        label={say("plan.volume")}
        value={volume}
        worded={formats.percent(volume)}
        onChange={turn}
      />
      <div role="status">
        <Outcome result={isSilent ? "silent" : result} />
      </div>
    </Dialog>
  );
}

function Outcome({ result }: { result: Result | "silent" }) {
  const say = useSay();
  if (result === "not-tried") return null;
  if (result === "heard") return <Notice>{say("soundCheck.heard")}</Notice>;
  const why = result === "silent" ? say("soundCheck.silent") : say(`soundFailure.${result}`);
  return <Notice kind="caution">{why}</Notice>;
}
