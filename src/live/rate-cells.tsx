import type { MarkCounts } from "../../shared/record/counts.ts";
import { wilsonInterval } from "../../shared/statistics/wilson.ts";
import { useVoice } from "../words/use-voice.ts";

/** One session's rate with its interval, and the counts that it rests on; there are some on or off. */
export function RateCells({ counts }: { counts: MarkCounts }) {
  const { say, formats } = useVoice();
  const { on, off, missing } = counts;
  const { lower, upper } = wilsonInterval(on, on + off);
  return (
    <>
      <td>
        {say("end.rateWithin", {
          rate: formats.percent(on / (on + off)),
          low: formats.percent(lower),
          high: formats.percent(upper),
        })}
      </td>
      <td>{on}</td>
      <td>{off}</td>
      <td>{missing}</td>
    </>
  );
}
