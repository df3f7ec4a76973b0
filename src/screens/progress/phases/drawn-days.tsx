import type { Draw } from "../../../../shared/phase/draw.ts";
import { drawDay } from "../../../../shared/reading/drawn/drawn-start.ts";
import { useFormats } from "../../../text/text.tsx";

/** Each drawn day in a sentence of its own, with the days it was drawn from. */
export function DrawnDays(props: {
  draws: readonly {
    readonly key: string;
    readonly draw: Pick<Draw, "from" | "to" | "seed" | "days">;
    readonly sentence: (days: { day: string; from: string; to: string }) => string;
  }[];
}) {
  const formats = useFormats();
  return (
    <ol>
      {props.draws.map(({ key, draw, sentence }) => (
        <li key={key}>
          {sentence({
            day: formats.day(drawDay(draw) ?? draw.from),
            from: formats.shortDay(draw.from),
            to: formats.shortDay(draw.to),
          })}
        </li>
      ))}
    </ol>
  );
}
