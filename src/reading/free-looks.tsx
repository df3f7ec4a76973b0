import type { FreeLook } from "../../shared/record/group-counts.ts";
import { useVoice } from "../words/use-voice.ts";

/** How many looks stand for themselves, because no cue was near; nothing when there are none. */
export function FreeLooks({ looks }: { looks: readonly FreeLook[] }) {
  const { say } = useVoice();
  if (looks.length === 0) return null;
  const saw = (value: FreeLook["seen"]) => looks.filter(({ seen }) => seen === value).length;
  return <p>{say("checks.freeLooks", { looks: looks.length, on: saw("on"), off: saw("off") })}</p>;
}
