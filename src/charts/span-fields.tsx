import { useState } from "react";
import type { DayOff } from "../../shared/calendar/timetable.ts";
import {
  earlierDay,
  laterDay,
  type Span,
  type SpanChoice,
  spanChoices,
  spanOf,
} from "../../shared/reading/span.ts";
import { useTerms } from "../api/queries.ts";
import { Choices } from "../parts/field.tsx";
import { DayField } from "../parts/moment-field.tsx";
import { useSay } from "../text/text.tsx";

/** The span that a screen shows, and how to change it. Null days mean that there is nothing to show. */
export function useSpan(
  days: readonly string[],
  daysOff: readonly DayOff[],
  first: SpanChoice = "term",
) {
  const terms = useTerms().data ?? [];
  const [choice, setChoice] = useState<SpanChoice>(first);
  // As typed: a half-typed month may put the ends the wrong way round for a moment, and moves neither.
  const [own, setOwn] = useState<Span | null>(null);
  const span =
    choice === "own" && own !== null
      ? { first: earlierDay(own.first, own.last), last: laterDay(own.first, own.last) }
      : spanOf(choice === "own" ? "all" : choice, days, daysOff, terms);
  return {
    span,
    own: own ?? span,
    choice,
    choose: (next: SpanChoice) => {
      if (next === "own") setOwn(span);
      setChoice(next);
    },
    setOwn,
  };
}

/** Which days the charts show: by a plain choice, or from one day to another. */
export function SpanFields({ own, choice, choose, setOwn }: ReturnType<typeof useSpan>) {
  const say = useSay();
  return (
    <div className="progress-span">
      <Choices
        label={say("span.label")}
        inRow
        value={choice}
        choices={spanChoices.map((value) => ({ value, label: say(`span.${value}`) }))}
        onChange={choose}
      />
      {choice === "own" ? (
        <>
          <DayField
            label={say("span.from")}
            value={own.first}
            onChange={(first) => setOwn({ ...own, first })}
          />
          <DayField
            label={say("span.to")}
            value={own.last}
            onChange={(last) => setOwn({ ...own, last })}
          />
        </>
      ) : null}
    </div>
  );
}
