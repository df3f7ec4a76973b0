import { useState } from "react";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { phaseKinds } from "../../../../shared/phase/phase.ts";
import { drawDay } from "../../../../shared/reading/drawn/drawn-start.ts";
import type { GroupCounts } from "../../../../shared/record/group-counts.ts";
import { useTell, useWeekdays } from "../../../api/queries.ts";
import { Button } from "../../../parts/button.tsx";
import { Pick, Switch, TextField } from "../../../parts/field.tsx";
import { DayField } from "../../../parts/moment-field.tsx";
import { Problem } from "../../../parts/problem.tsx";
import { useVoice } from "../../../words/use-voice.ts";
import {
  type DrawnStart,
  DrawnStartFields,
  drawnBefore,
  newDrawnStart,
} from "./drawn-start-fields.tsx";
import {
  drawnProbes,
  ProbeFields,
  probesBefore,
  usualProbes,
  type WantedProbes,
} from "./probe-fields.tsx";

interface PhaseFormProps {
  /** Null for a new one. */
  readonly phase: Phase | null;
  readonly counts: GroupCounts;
  readonly onDone: () => void;
}

const everybody = "everybody";

/** Adds or changes one phase: its first day chosen or drawn, and the days of a maintenance phase's probes. */
export function PhaseForm({ phase, counts, onDone }: PhaseFormProps) {
  const { say } = useVoice();
  const [kind, setKind] = useState(phase?.kind ?? "baseline");
  const [label, setLabel] = useState(phase?.label ?? "");
  const [who, setWho] = useState(phase?.studentId ?? everybody);
  const [startsOn, setStartsOn] = useState(phase?.startsOn ?? counts.today);
  const before = phase?.draw ?? null;
  const [start, setStart] = useState<DrawnStart | null>(before && drawnBefore(before));
  // Turning the draw off and on again does not make it the first one.
  const [timesDrawn, setTimesDrawn] = useState(before?.times ?? 0);
  const [wanted, setWanted] = useState<WantedProbes | null>(
    phase?.probes ? probesBefore(phase.probes) : null,
  );
  const calendar = { daysOff: counts.daysOff, weekdays: useWeekdays(counts.group.id) };
  const save = useSavePhase(phase);

  const draw = start?.draw ?? null;
  const first = start === null ? startsOn : draw && drawDay(draw);
  const isProbed = kind === "maintenance" && wanted !== null;
  const probes = isProbed && first !== null ? drawnProbes(wanted, first, calendar, phase) : null;
  const isReady = first !== null && (!isProbed || probes !== null);

  return (
    <form
      className="progress-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (first === null || !isReady) return;
        const studentId = who === everybody ? null : who;
        const facts = { kind, label: label.trim(), startsOn: first, draw, probes };
        save.mutate({ groupId: counts.group.id, studentId, ...facts }, { onSuccess: onDone });
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
          value={start !== null}
          onChange={(on) => setStart(on ? newDrawnStart(startsOn, timesDrawn) : null)}
        />
        <p className="progress-facts">{say("phases.drawHelp")}</p>
      </div>
      {start === null ? (
        <DayField
          label={say("phases.firstDay")}
          help={say("phases.firstDayHelp")}
          value={startsOn}
          onChange={setStartsOn}
        />
      ) : (
        <DrawnStartFields
          value={start}
          calendar={calendar}
          onChange={(value) => {
            setStart(value);
            setTimesDrawn(value.times);
          }}
        />
      )}
      {kind === "maintenance" ? (
        <>
          <div className="progress-form-wide">
            <Switch
              label={say("phases.probeSwitch")}
              value={wanted !== null}
              onChange={(on) => setWanted(on ? usualProbes(first ?? startsOn) : null)}
            />
            <p className="progress-facts">{say("phases.probeHelp")}</p>
          </div>
          {wanted === null || first === null ? null : (
            <ProbeFields
              wanted={wanted}
              from={first}
              calendar={calendar}
              probes={probes}
              onChange={setWanted}
            />
          )}
        </>
      ) : null}
      <div className="progress-form-actions">
        <Button look="main" type="submit" isDisabled={!isReady || save.isPending}>
          {say("act.save")}
        </Button>
        <Button onPress={onDone}>{say("act.cancel")}</Button>
      </div>
      <Problem error={save.error} />
    </form>
  );
}

function useSavePhase(phase: Phase | null) {
  return useTell((api, { groupId, studentId, ...facts }: Omit<Phase, "id">) =>
    phase === null
      ? api.phases.create({ groupId, studentId, ...facts })
      : api.phases.update({ id: phase.id, ...facts }),
  );
}
