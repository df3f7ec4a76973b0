import { useState } from "react";
import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import type { Draw } from "../../../../shared/phase/draw.ts";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { windowDays } from "../../../../shared/reading/drawn/drawn-stagger.ts";
import { drawDay } from "../../../../shared/reading/drawn/drawn-start.ts";
import {
  drawWithdrawal,
  withdrawalChanges,
} from "../../../../shared/reading/drawn/drawn-withdrawal.ts";
import type { GroupCounts } from "../../../../shared/record/group-counts.ts";
import { useWeekdays } from "../../../api/queries.ts";
import { Pick } from "../../../parts/field.tsx";
import { freshSeed } from "../../../parts/fresh-seed.ts";
import { useVoice } from "../../../words/use-voice.ts";
import { DrawForm, useDrawing } from "./draw-form.tsx";
import { DrawnDays } from "./drawn-days.tsx";
import { firstBaselineDay } from "./first-baseline-day.ts";
import { useSavePhases } from "./use-save-phases.ts";
import { WindowFields } from "./window-fields.tsx";

const everybody = "everybody";
type Drawn = readonly Omit<Draw, "times">[];

const sentences = [
  "designs.withdrawalDrawn.0",
  "designs.withdrawalDrawn.1",
  "designs.withdrawalDrawn.2",
] as const;

/** Draws when a program begins, is taken away and comes back, and keeps it as phases. */
export function WithdrawalForm(props: { counts: GroupCounts; onDone: () => void }) {
  const { counts, onDone } = props;
  const { say, formats } = useVoice();
  const withOwn = new Set(counts.phases.map(({ studentId }) => studentId));
  // A group that is past its baseline has begun.
  const groupHasBegun = counts.phases.some(
    ({ studentId, kind }) => studentId === null && kind !== "baseline",
  );
  const choices = [
    ...(groupHasBegun ? [] : [{ value: everybody, label: say("phases.everybody") }]),
    ...counts.students.flatMap(({ id, name }) =>
      withOwn.has(id) ? [] : { value: id, label: name },
    ),
  ];
  const [who, setWho] = useState(choices[0]?.value ?? everybody);
  const [from, setFrom] = useState(dayText(dayNumber(counts.today) + 7));
  const [window, setWindow] = useState<number>(windowDays.usual);
  const drawing = useDrawing<Drawn>();
  const { drawn, times, change } = drawing;
  const weekdays = useWeekdays(counts.group.id);
  const baselineFrom = firstBaselineDay(counts);
  const drawWith = (seed: string) =>
    drawWithdrawal({ from, window, seed, daysOff: counts.daysOff, weekdays });
  const isPossible = drawWith("x").length > 0 && choices.length > 0;
  const save = useSavePhases(counts.group.id);
  const keep = () => {
    const studentId = who === everybody ? null : who;
    // The group's own baseline is there already.
    const hasBaseline =
      studentId === null && counts.phases.some(({ studentId: own }) => own === null);
    const phases = phasesOf(drawn ?? [], studentId, baselineFrom, times);
    save.mutate(hasBaseline ? phases.slice(1) : phases, { onSuccess: onDone });
  };
  return (
    <DrawForm
      help={say("designs.withdrawalHelp")}
      drawing={drawing}
      before={
        isPossible
          ? say("designs.withdrawalReady", { ways: window ** withdrawalChanges })
          : say("designs.noDays")
      }
      result={
        <DrawnDays
          draws={(drawn ?? []).flatMap((draw, at) => {
            const key = sentences[at];
            return key === undefined
              ? []
              : { key, draw, sentence: (days: Parameters<typeof say>[1]) => say(key, days) };
          })}
        />
      }
      note={say("designs.baselineFrom", { day: formats.fullDay(baselineFrom) })}
      drawLabel={say("designs.withdrawalDraw")}
      canDraw={isPossible}
      onDraw={() => drawing.keep(drawWith(freshSeed()))}
      save={save}
      onSave={keep}
      onDone={onDone}
    >
      <Pick
        label={say("designs.withdrawalWho")}
        help={groupHasBegun ? say("designs.groupHasPhases") : undefined}
        value={who}
        onChange={(value) => change(() => setWho(value))}
        choices={choices}
      />
      <WindowFields
        fromLabel={say("designs.withdrawalFrom")}
        from={from}
        onFrom={(day) => change(() => setFrom(day))}
        windowLabel={say("designs.withdrawalWindow")}
        window={window}
        onWindow={(days) => change(() => setWindow(days))}
      />
    </DrawForm>
  );
}

/** A baseline first, then program and baseline by turns from the drawn days on. */
function phasesOf(
  drawn: Drawn,
  studentId: string | null,
  baselineFrom: string,
  times: number,
): Omit<Phase, "id" | "groupId">[] {
  const facts = { studentId, label: "", probes: null };
  return [
    { ...facts, kind: "baseline", startsOn: baselineFrom, draw: null },
    ...drawn.map((draw, at) => ({
      ...facts,
      kind: at % 2 === 0 ? ("intervention" as const) : ("baseline" as const),
      startsOn: drawDay(draw) ?? draw.from,
      draw: { ...draw, times },
    })),
  ];
}
