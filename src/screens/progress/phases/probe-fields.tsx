import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import { schoolDays } from "../../../../shared/calendar/school-days.ts";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { mostProbes, type Probes } from "../../../../shared/phase/probes.ts";
import { probeDays } from "../../../../shared/schedule/probe-days.ts";
import { Button } from "../../../parts/button.tsx";
import { NumberField, TextField } from "../../../parts/field.tsx";
import { freshSeed } from "../../../parts/fresh-seed.ts";
import { DayField } from "../../../parts/moment-field.tsx";
import { useVoice } from "../../../words/use-voice.ts";
import { asSeed, type Calendar } from "./drawn-start-fields.tsx";

/** What the teacher asks for; the days follow from it. */
export interface WantedProbes {
  readonly count: number;
  readonly until: string;
  readonly seed: string;
}

/** A school year and its holidays; nothing is drawn further ahead. */
const mostDaysAhead = 400;

/** Four in eight weeks; common practice, no source. */
export const usualProbes = (from: string): WantedProbes => ({
  count: 4,
  until: dayText(dayNumber(from) + 55),
  seed: freshSeed(),
});

export const probesBefore = ({ days, until, seed }: Probes): WantedProbes => ({
  count: days.length,
  until,
  seed,
});

/**
 * The probes of a phase from its first day on; null when no day can be drawn. Days drawn before stay as
 * they are while nothing that is asked for changes, whatever became of the calendar.
 */
export function drawnProbes(
  wanted: WantedProbes,
  from: string,
  calendar: Calendar,
  before: Pick<Phase, "startsOn" | "probes"> | null,
): Probes | null {
  const { count, until, seed } = wanted;
  const kept = before?.probes ?? null;
  const isKept =
    kept !== null &&
    before?.startsOn === from &&
    kept.until === until &&
    kept.seed === seed &&
    kept.days.length === count;
  if (isKept) return kept;
  if (!(count >= 1 && count <= mostProbes) || seed === "" || until > latest(from)) return null;
  const days = probeDays(seed, { from, to: until, ...calendar }, { count });
  return days.length === 0 ? null : { until, seed, days };
}

const latest = (from: string): string => dayText(dayNumber(from) + mostDaysAhead);

/** How many probes, until when, and the days that were drawn. */
export function ProbeFields(props: {
  wanted: WantedProbes;
  from: string;
  calendar: Calendar;
  probes: Probes | null;
  onChange: (wanted: WantedProbes) => void;
}) {
  const { say, formats } = useVoice();
  const { wanted, from, calendar, probes, onChange } = props;
  return (
    <>
      <NumberField
        label={say("phases.probeCount")}
        value={wanted.count}
        minValue={1}
        maxValue={mostProbes}
        step={1}
        onChange={(count) => onChange({ ...wanted, count })}
      />
      <DayField
        label={say("phases.probeUntil")}
        value={wanted.until}
        onChange={(until) => onChange({ ...wanted, until })}
      />
      <div className="progress-draw">
        <TextField
          label={say("phases.probeSeed")}
          value={wanted.seed}
          maxLength={12}
          onChange={(text) => onChange({ ...wanted, seed: asSeed(text) })}
        />
        <Button onPress={() => onChange({ ...wanted, seed: freshSeed() })}>
          {say("phases.probeDraw")}
        </Button>
      </div>
      <p role="status" className="progress-form-wide">
        {probes === null
          ? say("phases.probeNone", { most: mostProbes, ahead: mostDaysAhead })
          : say("phases.probeDays", {
              days: probes.days.map(formats.day).join("; "),
              every: Math.round(
                schoolDays({ from, to: probes.until, ...calendar }).length / probes.days.length,
              ),
            })}
      </p>
    </>
  );
}
