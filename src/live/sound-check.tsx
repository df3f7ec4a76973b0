import { useState } from "react";
import type { PlanChime } from "../../shared/plan/plan.ts";
import { Button } from "../parts/button.tsx";
import { Range } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import type { SoundFailure } from "../sound/decide-start.ts";
import { preview } from "../sound/preview.ts";
import { useFormats, useSay } from "../text/text.tsx";
import "./sound-check.css";

type Result = "not-tried" | "heard" | SoundFailure;

/** So much louder after a "no"; two or three steps lead from the usual volume to the loudest. */
const louderBy = 0.15;

/** What a sound check has come to. */
export type SoundCheckState = ReturnType<typeof useSoundCheck>;

/** A check of how the chime sounds, how loud it is to be, and whether it reaches the farthest seat. */
export function useSoundCheck(chime: PlanChime, plannedVolume: number) {
  const [volume, setVolume] = useState(plannedVolume);
  const [result, setResult] = useState<Result>("not-tried");
  const [reaches, setReaches] = useState<"unknown" | "yes" | "loudest">("unknown");
  const hearAt = async (at: number) => {
    setReaches("unknown");
    setResult((await preview(chime, at)) ?? "heard");
  };
  return {
    volume,
    result,
    reaches,
    isSilent: volume === 0,
    isTried: result !== "not-tried",
    /** Played, and said to have been heard from the farthest seat. */
    wasHeard: result === "heard" && reaches === "yes",
    hear: () => hearAt(volume),
    confirm: () => setReaches("yes"),
    louder: async () => {
      if (volume >= 1) return setReaches("loudest");
      const next = Math.min(1, Math.round(100 * (volume + louderBy)) / 100);
      setVolume(next);
      await hearAt(next);
    },
    turn: (to: number) => {
      setVolume(to);
      setReaches("unknown");
      // What was heard before it was turned down to nothing has to be heard again.
      if (to === 0) setResult("not-tried");
    },
  };
}

/** Before the first session: hear the chime where the class will hear it, and set how loud it is. */
export function SoundCheck({ check }: { check: SoundCheckState }) {
  const say = useSay();
  const formats = useFormats();
  const { volume, result, reaches, isSilent, turn } = check;
  const isAsked = result === "heard" && !isSilent;
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
      <div className="sound-check-asked">
        <p id="sound-check-reaches">{say("soundCheck.reaches")}</p>
        <div role="group" aria-labelledby="sound-check-reaches" className="sound-check-answers">
          <Button aria-pressed={reaches === "yes"} isDisabled={!isAsked} onPress={check.confirm}>
            {say("soundCheck.yes")}
          </Button>
          <Button isDisabled={!isAsked} onPress={() => void check.louder()}>
            {say("soundCheck.louder")}
          </Button>
        </div>
      </div>
      {/* Keeps its place before there is anything to say, so that nothing below it moves. */}
      <div role="status" className="sound-check-outcome">
        <Outcome result={isSilent ? "silent" : result} reaches={reaches} />
      </div>
    </>
  );
}

function Outcome(props: { result: Result | "silent"; reaches: SoundCheckState["reaches"] }) {
  const say = useSay();
  const { result, reaches } = props;
  if (result === "not-tried") return null;
  if (result === "heard" && reaches === "loudest") {
    return <Notice kind="caution">{say("soundCheck.loudest")}</Notice>;
  }
  if (result === "heard") {
    return <Notice>{say(reaches === "yes" ? "soundCheck.good" : "soundCheck.heard")}</Notice>;
  }
  const why = result === "silent" ? say("soundCheck.silent") : say(`soundFailure.${result}`);
  return <Notice kind="caution">{why}</Notice>;
}
