import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import { schoolDays } from "../../../../shared/calendar/school-days.ts";
import type { DayOff } from "../../../../shared/calendar/timetable.ts";
import type { Draw } from "../../../../shared/phase/draw.ts";
import { drawDay } from "../../../../shared/reading/drawn/drawn-start.ts";
import { Button } from "../../../parts/button.tsx";
import { TextField } from "../../../parts/field.tsx";
import { freshSeed } from "../../../parts/fresh-seed.ts";
import { DayField } from "../../../parts/moment-field.tsx";
import { useVoice } from "../../../words/use-voice.ts";

/** A draw on its way: the span and the seed, and what was drawn from them once it was. */
export interface DrawnStart {
  readonly from: string;
  readonly to: string;
  readonly seed: string;
  /** Null until the day is drawn; a change of span or seed takes the day back. */
  readonly draw: Draw | null;
  /** Days drawn so far for this phase, those that were not kept among them. */
  readonly times: number;
}

/** Days on which the group may start. */
export interface Calendar {
  readonly daysOff: readonly DayOff[];
  readonly weekdays: readonly number[];
}

/** Spans that can be drawn from are kept short: a program is not put off for months. */
const mostDrawnDays = 60;

/** Two weeks from a day, nothing drawn yet. */
export const newDrawnStart = (from: string, times: number): DrawnStart => ({
  from,
  to: dayText(dayNumber(from) + 13),
  seed: freshSeed(),
  draw: null,
  times,
});

export const drawnBefore = (draw: Draw): DrawnStart => ({
  from: draw.from,
  to: draw.to,
  seed: draw.seed,
  draw,
  times: draw.times,
});

/** The span, the seed, and the press that draws; each press counts. */
export function DrawnStartFields(props: {
  value: DrawnStart;
  calendar: Calendar;
  onChange: (value: DrawnStart) => void;
}) {
  const { say, formats } = useVoice();
  const { value, calendar, onChange } = props;
  const { from, to, draw } = value;
  const change = (part: Partial<DrawnStart>) => onChange({ ...value, ...part, draw: null });
  const days = draw?.days ?? possibleDays(value, calendar);
  const drawNow = () => {
    const seed = draw === null ? value.seed : freshSeed();
    const times = value.times + 1;
    const drawn = { from, to, seed, days: possibleDays(value, calendar), times };
    onChange({ ...value, seed, times, draw: drawn });
  };
  return (
    <>
      <DayField
        label={say("phases.drawFrom")}
        value={from}
        onChange={(day) => change({ from: day })}
      />
      <DayField label={say("phases.drawTo")} value={to} onChange={(day) => change({ to: day })} />
      <div className="progress-draw">
        <TextField
          label={say("seed.seed")}
          value={value.seed}
          maxLength={12}
          onChange={(text) => change({ seed: asSeed(text) })}
        />
        <Button isDisabled={days.length === 0 || value.seed === ""} onPress={drawNow}>
          {say(value.times === 0 ? "phases.drawFirst" : "phases.draw")}
        </Button>
      </div>
      <div role="status" className="progress-form-wide">
        {draw === null ? (
          <p>
            {days.length === 0 || value.seed === ""
              ? say("phases.drawNone", { most: mostDrawnDays })
              : say("phases.drawReady", { days: days.length })}
          </p>
        ) : (
          <p>
            {say("phases.drawResult", {
              day: formats.day(drawDay(draw) ?? from),
              days: days.length,
            })}
          </p>
        )}
        {value.times > 1 ? <p>{say("phases.drawnTimes", { times: value.times })}</p> : null}
      </div>
    </>
  );
}

/** Letters and figures alone: seeds are copied by hand. */
export const asSeed = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, "");

function possibleDays({ from, to }: DrawnStart, calendar: Calendar): string[] {
  const length = dayNumber(to) - dayNumber(from) + 1;
  return length > mostDrawnDays ? [] : schoolDays({ from, to, ...calendar });
}
