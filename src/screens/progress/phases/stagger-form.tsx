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
import { useWeekdays } from "../../../api/queries.ts";
import { CheckBox } from "../../../parts/check-box.tsx";
import { freshSeed } from "../../../parts/fresh-seed.ts";
import { useVoice } from "../../../words/use-voice.ts";
import { DrawForm, useDrawing } from "./draw-form.tsx";
import { DrawnDays } from "./drawn-days.tsx";
import { firstBaselineDay } from "./first-baseline-day.ts";
import { useSavePhases } from "./use-save-phases.ts";
import { WindowFields } from "./window-fields.tsx";

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
  const drawing = useDrawing<readonly StaggeredStart[]>();
  const { drawn, times, change } = drawing;
  const weekdays = useWeekdays(counts.group.id);
  const save = useSavePhases(counts.group.id);
  const withOwn = new Set(counts.phases.map(({ studentId }) => studentId));
  const baselineFrom = firstBaselineDay(counts);
  const names = new Map(counts.students.map(({ id, name }) => [id, name]));
  const drawWith = (seed: string) =>
    drawStagger({ studentIds: chosen, from, window, seed, daysOff: counts.daysOff, weekdays });
  const isPossible = drawWith("x").length > 0;
  const isRightSize = chosen.length >= staggerSize.fewest && chosen.length <= staggerSize.most;
  const ready = isPossible
    ? say("designs.ready", { students: chosen.length, ways: window ** chosen.length })
    : say("designs.noDays");
  return (
    <DrawForm
      help={say("designs.staggerHelp")}
      drawing={drawing}
      before={isRightSize ? ready : say("designs.chooseMore")}
      result={
        <DrawnDays
          draws={(drawn ?? []).map(({ studentId, draw }) => ({
            key: studentId,
            draw,
            sentence: (days) => say("designs.drawn", { name: names.get(studentId) ?? "", ...days }),
          }))}
        />
      }
      note={say("designs.baselineFrom", { day: formats.fullDay(baselineFrom) })}
      drawLabel={say("designs.draw")}
      canDraw={isPossible}
      onDraw={() => drawing.keep(drawWith(freshSeed()))}
      save={save}
      onSave={() => save.mutate(phasesOf(drawn ?? [], baselineFrom, times), { onSuccess: onDone })}
      onDone={onDone}
    >
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
      <WindowFields
        fromLabel={say("designs.from")}
        from={from}
        onFrom={(day) => change(() => setFrom(day))}
        windowLabel={say("designs.window")}
        window={window}
        onWindow={(days) => change(() => setWindow(days))}
      />
    </DrawForm>
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
