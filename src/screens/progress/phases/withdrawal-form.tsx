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
import { useTell, useWeekdays } from "../../../api/queries.ts";
import { Button } from "../../../parts/button.tsx";
import { DayField } from "../../../parts/day-field.tsx";
import { NumberField, Pick } from "../../../parts/field.tsx";
import { freshSeed } from "../../../parts/fresh-seed.ts";
import { Problem } from "../../../parts/problem.tsx";
import { useVoice } from "../../../words/use-voice.ts";
import { firstBaselineDay } from "./first-baseline-day.ts";

const everybody = "everybody";
type Drawn = readonly Omit<Draw, "times">[];

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
  const [times, setTimes] = useState(0);
  const [drawn, setDrawn] = useState<Drawn | null>(null);
  const weekdays = useWeekdays(counts.group.id);
  const baselineFrom = firstBaselineDay(counts);
  const drawWith = (seed: string) =>
    drawWithdrawal({ from, window, seed, daysOff: counts.daysOff, weekdays });
  const isPossible = drawWith("x").length > 0 && choices.length > 0;
  const save = useTell((api, phases: Omit<Phase, "id" | "groupId">[]) =>
    api.phases.createAll({ groupId: counts.group.id, phases }),
  );
  // Whatever is changed takes the draw back.
  const change = (apply: () => void) => {
    apply();
    setDrawn(null);
  };
  return (
    <form
      className="progress-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (drawn === null) return;
        const studentId = who === everybody ? null : who;
        // The group's own baseline is there already.
        const hasBaseline =
          studentId === null && counts.phases.some(({ studentId: own }) => own === null);
        const phases = phasesOf(drawn, studentId, baselineFrom, times);
        save.mutate(hasBaseline ? phases.slice(1) : phases, { onSuccess: onDone });
      }}
    >
      <p className="progress-form-wide">{say("designs.withdrawalHelp")}</p>
      <Pick
        label={say("designs.withdrawalWho")}
        help={groupHasBegun ? say("designs.groupHasPhases") : undefined}
        value={who}
        onChange={(value) => change(() => setWho(value))}
        choices={choices}
      />
      <DayField
        label={say("designs.withdrawalFrom")}
        value={from}
        onChange={(day) => change(() => setFrom(day))}
      />
      <NumberField
        label={say("designs.withdrawalWindow")}
        value={window}
        minValue={windowDays.fewest}
        maxValue={windowDays.most}
        step={1}
        onChange={(days) => change(() => setWindow(days))}
      />
      <div role="status" className="progress-form-wide">
        {drawn === null ? (
          <p>
            {isPossible
              ? say("designs.withdrawalReady", { ways: window ** withdrawalChanges })
              : say("designs.noDays")}
          </p>
        ) : (
          <DrawnDays drawn={drawn} />
        )}
        <p className="progress-facts">
          {say("designs.baselineFrom", { day: formats.fullDay(baselineFrom) })}
        </p>
        {times > 1 ? <p>{say("phases.drawnTimes", { times })}</p> : null}
      </div>
      <div className="progress-form-actions">
        <Button
          isDisabled={!isPossible}
          onPress={() => {
            setTimes(times + 1);
            setDrawn(drawWith(freshSeed()));
          }}
        >
          {say(times === 0 ? "designs.withdrawalDraw" : "designs.drawAgain")}
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

const sentences = [
  "designs.withdrawalDrawn.0",
  "designs.withdrawalDrawn.1",
  "designs.withdrawalDrawn.2",
] as const;

function DrawnDays({ drawn }: { drawn: Drawn }) {
  const { say, formats } = useVoice();
  return (
    <ol>
      {sentences.map((sentence, at) => {
        const draw = drawn[at];
        if (draw === undefined) return null;
        return (
          <li key={sentence}>
            {say(sentence, {
              day: formats.day(drawDay(draw) ?? draw.from),
              from: formats.shortDay(draw.from),
              to: formats.shortDay(draw.to),
            })}
          </li>
        );
      })}
    </ol>
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
