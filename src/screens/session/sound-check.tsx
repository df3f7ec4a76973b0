import { useState } from "react";
import type { ChimeName } from "../../../shared/plan/plan.ts";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Notice } from "../../parts/notice.tsx";
import type { SoundFailure } from "../../sound/decide-start.ts";
import { usePreview } from "../../sound/use-preview.ts";
import { useSay } from "../../text/text.tsx";

interface SoundCheckProps {
  isOpen: boolean;
  chime: ChimeName;
  volume: number;
  onDone: () => void;
  onCancel: () => void;
}

/** Before the first session: hear the chime where the class will hear it. */
export function SoundCheck({ isOpen, chime, volume, onDone, onCancel }: SoundCheckProps) {
  const say = useSay();
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
          <Button look={result === "not-tried" ? "plain" : "main"} onPress={onDone}>
            {say("soundCheck.start")}
          </Button>
        </>
      }
    >
      <p>{say("soundCheck.body")}</p>
      <p>{say("soundCheck.caution")}</p>
      <div role="status">
        {result === "heard" ? <Notice>{say("soundCheck.heard")}</Notice> : null}
        {result === "heard" || result === "not-tried" ? null : (
          <Notice kind="caution">{say(`soundFailure.${result}`)}</Notice>
        )}
      </div>
    </Dialog>
  );
}
