import { useState } from "react";
import { dayNumber, dayText } from "../../../shared/analysis/calendar.ts";
import type { Draw, GroupCounts, Phase } from "../../../shared/api/analysis.ts";
import { phaseKinds } from "../../../shared/phase/phase.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { DayField } from "../../parts/day-field.tsx";
import { Pick, Switch, TextField } from "../../parts/field.tsx";
import { freshSeed } from "../../parts/fresh-seed.ts";
import { Problem } from "../../parts/problem.tsx";
import { drawDay, permittedDays } from "./drawn-start.ts";
import { useVoice } from "./use-voice.ts";

interface PhaseFormProps {
  /** Null for a new one. */
  readonly phase: Phase | null;
  readonly counts: GroupCounts;
  readonly onDone: () => void;
}

const everybody = "everybody";
/** Spans that can be drawn from are kept short: a program is not put off for months. */
const mostDrawnDays = 60;

/** Adds or changes one phase; its first day is chosen, or drawn from a span of days. */
export function PhaseForm({ phase, counts, onDone }: PhaseFormProps) {
  const { say, formats } = useVoice();
  const [kind, setKind] = useState(phase?.kind ?? "baseline");
  const [label, setLabel] = useState(phase?.label ?? "");
  const [who, setWho] = useState(phase?.studentId ?? everybody);
  const [startsOn, setStartsOn] = useState(phase?.startsOn ?? counts.today);
  const [draw, setDraw] = useState<Draw | null>(phase?.draw ?? null);
  const save = useTell((api, facts: Omit<Phase, "id">) => {
    const { kind, label, startsOn, draw } = facts;
    return phase === null
      ? api.phases.create(facts)
      : api.phases.update({ id: phase.id, kind, label, startsOn, draw });
  });
  const drawn = draw === null ? null : drawDay(draw);
  const isDrawable = draw === null || isReasonable(draw);
  const first = draw === null ? startsOn : drawn;

  return (
    <form
      className="progress-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (first === null || !isDrawable) return;
        const studentId = who === everybody ? null : who;
        save.mutate(
          { groupId: counts.group.id, studentId, kind, label: label.trim(), startsOn: first, draw },
          { onSuccess: onDone },
        );
      }}
    >
      <Pick
        label={say("phases.kind")}
        value={kind}
        onChange={setKind}
        choices={phaseKinds.map((value) => ({ value, label: say(`phase.${value}`) }))}
      />
      <TextField
        label={say("phases.label")}
        help={say("phases.labelHelp")}
        value={label}
        onChange={setLabel}
        maxLength={60}
      />
      {phase === null ? (
        <Pick
          label={say("phases.who")}
          help={say("phases.whoHelp")}
          value={who}
          onChange={setWho}
          choices={[
            { value: everybody, label: say("phases.everybody") },
            ...counts.students.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
      ) : null}
      <div className="progress-form-wide">
        <Switch
          label={say("phases.drawSwitch")}
          value={draw !== null}
          onChange={(on) =>
            setDraw(on ? { from: startsOn, to: inTwoWeeks(startsOn), seed: freshSeed() } : null)
          }
        />
        <p className="progress-facts">{say("phases.drawHelp")}</p>
      </div>
      {draw === null ? (
        <DayField
          label={say("phases.firstDay")}
          help={say("phases.firstDayHelp")}
          value={startsOn}
          onChange={setStartsOn}
        />
      ) : (
        <>
          <DayField
            label={say("phases.drawFrom")}
            value={draw.from}
            onChange={(from) => setDraw({ ...draw, from })}
          />
          <DayField
            label={say("phases.drawTo")}
            value={draw.to}
            onChange={(to) => setDraw({ ...draw, to })}
          />
          <div className="progress-draw">
            <TextField
              label={say("seed.seed")}
              value={draw.seed}
              maxLength={12}
              onChange={(seed) =>
                setDraw({ ...draw, seed: seed.toLowerCase().replace(/[^a-z0-9]/g, "") })
              }
            />
            <Button onPress={() => setDraw({ ...draw, seed: freshSeed() })}>
              {say("phases.draw")}
            </Button>
          </div>
          <p role="status" className="progress-form-wide">
            {drawn === null || !isDrawable || draw.seed === ""
              ? say("phases.drawNone", { most: mostDrawnDays })
              : say("phases.drawResult", {
                  day: formats.day(drawn),
                  days: permittedDays(draw).length,
                })}
          </p>
        </>
      )}
      <div className="progress-form-actions">
        <Button
          look="main"
          type="submit"
          isDisabled={first === null || !isDrawable || save.isPending}
        >
          {say("act.save")}
        </Button>
        <Button onPress={onDone}>{say("act.cancel")}</Button>
      </div>
      <Problem error={save.error} />
    </form>
  );
}

const inTwoWeeks = (day: string): string => dayText(dayNumber(day) + 13);

function isReasonable({ from, to, seed }: Draw): boolean {
  const days = dayNumber(to) - dayNumber(from) + 1;
  return days > 0 && days <= mostDrawnDays && seed !== "";
}
