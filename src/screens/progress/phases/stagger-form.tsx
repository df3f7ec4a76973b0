import { useState } from "react";
import { CheckboxGroup, Label, Text } from "react-aria-components";
import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import type { Phase } from "../../../../shared/phase/phase.ts";
import {
  drawStagger,
  type StaggeredStart,
  staggerSize,
  windowDays,
} from "../../../../shared/reading/drawn/drawn-stagger.ts";
import { drawDay } from "../../../../shared/reading/drawn/drawn-start.ts";
import type { GroupCounts } from "../../../../shared/record/group-counts.ts";
import { useTell, useWeekdays } from "../../../api/queries.ts";
import { Button } from "../../../parts/button.tsx";
import { CheckBox } from "../../../parts/check-box.tsx";
import { DayField } from "../../../parts/day-field.tsx";
import { NumberField } from "../../../parts/field.tsx";
import { freshSeed } from "../../../parts/fresh-seed.ts";
import { Problem } from "../../../parts/problem.tsx";
import { useVoice } from "../../../words/use-voice.ts";
import { firstBaselineDay } from "./first-baseline-day.ts";

interface StaggerFormProps {
  readonly counts: GroupCounts;
  readonly onDone: () => void;
}

/** Draws who starts the program first and on which days, and keeps it as each student's own phases. */
export function StaggerForm({ counts, onDone }: StaggerFormProps) {
  const { say, formats } = useVoice();
  const [chosen, setChosen] = useState<string[]>([]);
  const [from, setFrom] = useState(dayText(dayNumber(counts.today) + 7));
  const [window, setWindow] = useState<number>(windowDays.usual);
  const [seed, setSeed] = useState(freshSeed);
  const [times, setTimes] = useState(0);
  const [drawn, setDrawn] = useState<readonly StaggeredStart[] | null>(null);
  const weekdays = useWeekdays(counts.group.id);
  const save = useTell((api, phases: Omit<Phase, "id" | "groupId">[]) =>
    api.phases.createAll({ groupId: counts.group.id, phases }),
  );
  const withOwn = new Set(counts.phases.map(({ studentId }) => studentId));
  const baselineFrom = firstBaselineDay(counts);
  const starts = drawStagger({
    studentIds: chosen,
    from,
    window,
    seed,
    daysOff: counts.daysOff,
    weekdays,
  });
  const isRightSize = chosen.length >= staggerSize.fewest && chosen.length <= staggerSize.most;
  // Whatever is changed takes the draw back.
  const change = (apply: () => void) => {
    apply();
    setDrawn(null);
  };
  const drawNow = () => {
    const next = times === 0 ? seed : freshSeed();
    setSeed(next);
    setTimes(times + 1);
    const plan = { studentIds: chosen, from, window, seed: next };
    setDrawn(drawStagger({ ...plan, daysOff: counts.daysOff, weekdays }));
  };
  return (
    <form
      className="progress-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (drawn === null) return;
        save.mutate(phasesOf(drawn, baselineFrom, times), { onSuccess: onDone });
      }}
    >
      <p className="progress-form-wide">{say("designs.staggerHelp")}</p>
      <CheckboxGroup
        value={chosen}
        onChange={(value) => change(() => setChosen(value))}
        className="field progress-form-wide"
      >
        <Label className="field-label">{say("designs.students")}</Label>
        <div className="stagger-students">
          {counts.students.map(({ id, name }) => (
            <CheckBox key={id} value={id} isDisabled={withOwn.has(id)}>
              {withOwn.has(id) ? say("designs.ownPhases", { name }) : name}
            </CheckBox>
          ))}
        </div>
        <Text slot="description" className="field-help">
          {say("designs.studentsHelp")}
        </Text>
      </CheckboxGroup>
      <DayField
        label={say("designs.from")}
        value={from}
        onChange={(day) => change(() => setFrom(day))}
      />
      <NumberField
        label={say("designs.window")}
        value={window}
        minValue={windowDays.fewest}
        maxValue={windowDays.most}
        step={1}
        onChange={(days) => change(() => setWindow(days))}
      />
      <div role="status" className="progress-form-wide">
        {drawn === null ? (
          <p>
            {!isRightSize
              ? say("designs.chooseMore")
              : starts.length === 0
                ? say("designs.noDays")
                : say("designs.ready", { students: chosen.length, ways: window ** chosen.length })}
          </p>
        ) : (
          <DrawnStarts drawn={drawn} counts={counts} />
        )}
        <p className="progress-facts">
          {say("designs.baselineFrom", { day: formats.fullDay(baselineFrom) })}
        </p>
        {times > 1 ? <p>{say("phases.drawnTimes", { times })}</p> : null}
      </div>
      <div className="progress-form-actions">
        <Button isDisabled={starts.length === 0} onPress={drawNow}>
          {say(times === 0 ? "designs.draw" : "designs.drawAgain")}
        </Button>
        <Button look="main" type="submit" isDisabled={drawn === null || save.isPending}>
          {say("act.save")}
        </Button>
        <Button onPress={onDone}>{say("act.cancel")}</Button>
      </div>
      <Problem error={save.error} />
    </form>
  );
}

function DrawnStarts(props: { drawn: readonly StaggeredStart[]; counts: GroupCounts }) {
  const { say, formats } = useVoice();
  const names = new Map(props.counts.students.map(({ id, name }) => [id, name]));
  return (
    <ol>
      {props.drawn.map(({ studentId, draw }) => (
        <li key={studentId}>
          {say("designs.drawn", {
            name: names.get(studentId) ?? "",
            day: formats.day(drawDay(draw) ?? draw.from),
            from: formats.shortDay(draw.from),
            to: formats.shortDay(draw.to),
          })}
        </li>
      ))}
    </ol>
  );
}

function phasesOf(
  drawn: readonly StaggeredStart[],
  baselineFrom: string,
  times: number,
): Omit<Phase, "id" | "groupId">[] {
  return drawn.flatMap(({ studentId, draw }) => {
    const facts = { studentId, label: "", probes: null };
    const startsOn = drawDay(draw) ?? draw.from;
    return [
      { ...facts, kind: "baseline", startsOn: baselineFrom, draw: null },
      { ...facts, kind: "intervention", startsOn, draw: { ...draw, times } },
    ];
  });
}
