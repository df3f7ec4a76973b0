import { useState } from "react";
import type { ChimeName } from "../../../shared/plan/plan.ts";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Range } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import type { SoundFailure } from "../../sound/decide-start.ts";
import { usePreview } from "../../sound/use-preview.ts";
import { useFormats, useSay } from "../../text/text.tsx";

interface SoundCheckProps {
  isOpen: boolean;
  chime: ChimeName;
  plannedVolume: number;
  onDone: (checked: { wasHeard: boolean; volume: number }) => void;
  onCancel: () => void;
}

/** Before the first session: hear the chime where the class will hear it, and set how loud it is. */
export function SoundCheck(props: SoundCheckProps) {
  const { isOpen, chime, plannedVolume, onDone, onCancel } = props;
  const say = useSay();
  const formats = useFormats();
  const [volume, setVolume] = useState(plannedVolume);
  const preview = usePreview();
  const [result, setResult] = useState<"not-tried" | "heard" | SoundFailure>("not-tried");
  const hear = async () => setResult((await preview(chime, volume)) ?? "heard");
  return (
    <Dialog
      title={say("soundCheck.title")}
      isOpen={isOpen}
      onClose={onCancel}
      actions={
        <>
          <Button onPress={onCancel}>{say("act.cancel")}</Button>
          <Button look={result === "not-tried" ? "main" : "plain"} onPress={hear}>
            {say("soundCheck.hear")}
          </Button>
          <Button
            look={result === "not-tried" ? "plain" : "main"}
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
        onChange={setVolume}
      />
      <div role="status">
        {result === "heard" ? <Notice>{say("soundCheck.heard")}</Notice> : null}
        {result === "heard" || result === "not-tried" ? null : (
          <Notice kind="caution">{say(`soundFailure.${result}`)}</Notice>
        )}
      </div>
    </Dialog>
  );
}
