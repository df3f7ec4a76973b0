import { useState } from "react";
import type { PlanChime } from "../../shared/plan/plan.ts";
import { Range } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import type { SoundFailure } from "../sound/decide-start.ts";
import { usePreview } from "../sound/use-preview.ts";
import { useFormats, useSay } from "../text/text.tsx";

type Result = "not-tried" | "heard" | SoundFailure;

/** What a sound check has come to. */
export type SoundCheckState = ReturnType<typeof useSoundCheck>;

/** A check of how the chime sounds, and how loud it is to be. */
export function useSoundCheck(chime: PlanChime, plannedVolume: number) {
  const [volume, setVolume] = useState(plannedVolume);
  const preview = usePreview();
  const [result, setResult] = useState<Result>("not-tried");
  return {
    volume,
    result,
    isSilent: volume === 0,
    isTried: result !== "not-tried",
    wasHeard: result === "heard",
    hear: async () => setResult((await preview(chime, volume)) ?? "heard"),
    turn: (to: number) => {
      setVolume(to);
      // What was heard before it was turned down to nothing has to be heard again.
      if (to === 0) setResult("not-tried");
    },
  };
}

/** Before the first session: hear the chime where the class will hear it, and set how loud it is. */
export function SoundCheck({ check }: { check: SoundCheckState }) {
  const say = useSay();
  const formats = useFormats();
  const { volume, result, isSilent, turn } = check;
  return (
    <>
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
    </>
  );
}

function Outcome({ result }: { result: Result | "silent" }) {
  const say = useSay();
  if (result === "not-tried") return null;
  if (result === "heard") return <Notice>{say("soundCheck.heard")}</Notice>;
  const why = result === "silent" ? say("soundCheck.silent") : say(`soundFailure.${result}`);
  return <Notice kind="caution">{why}</Notice>;
}
