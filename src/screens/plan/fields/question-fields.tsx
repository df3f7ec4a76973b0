import { offeredFirst, type RecordingWay } from "../../../../shared/plan/plan.ts";
import { SeatCautions } from "../../../class/seats/seat-cautions.tsx";
import { Choices } from "../../../parts/field.tsx";
import { useSay } from "../../../text/text.tsx";
import { FieldPlace } from "./field-place.tsx";
import { LengthField } from "./length-field.tsx";
import type { PlanFieldsProps } from "./plan-fields.ts";

/** A device of their own comes last: it takes a school that allows it, and slips. */
const forFew: readonly RecordingWay[] = ["screen", "paper", "seat"];
const forMany: readonly RecordingWay[] = ["paper", "screen", "seat"];

interface QuestionFieldsProps extends PlanFieldsProps {
  groupId: string;
  /** How many students are in the group. */
  students: number;
}

/** The three questions of a plan: how often, how long, how recorded. */
export function QuestionFields(props: QuestionFieldsProps) {
  const { settings, onChange, problemAt, groupId, students } = props;
  const say = useSay();
  const isManyStudents = offeredFirst(students) === "paper";
  const ways = isManyStudents ? forMany : forFew;
  return (
    <div className="plan-questions">
      <FieldPlace field="meanSeconds">
        <LengthField
          label={say("plan.howOften")}
          ownLabel={say("plan.mean")}
          help={say("plan.meanHelp")}
          offered={[60, 120, 180, 300, 600]}
          seconds={settings.meanSeconds}
          problem={problemAt("meanSeconds")}
          onChange={(meanSeconds) => onChange({ meanSeconds })}
        />
      </FieldPlace>
      <FieldPlace field="lengthSeconds">
        <LengthField
          label={say("plan.howLong")}
          ownLabel={say("plan.length")}
          offered={[600, 900, 1200, 1800, 2700]}
          seconds={settings.lengthSeconds}
          problem={problemAt("lengthSeconds")}
          onChange={(lengthSeconds) => onChange({ lengthSeconds })}
        />
      </FieldPlace>
      <FieldPlace field="recording">
        <Choices
          label={say("plan.howRecorded")}
          help={isManyStudents ? say("plan.paperFirst", { students }) : undefined}
          inRow
          value={settings.recording}
          choices={ways.map((way) => ({
            value: way,
            label: say(`plan.recording.${way}`),
            help: say(`plan.recording.${way}.help`),
          }))}
          // Own cues come to devices: where students record elsewhere, the class is cued together.
          onChange={(recording) =>
            onChange(
              recording !== "seat" && settings.cueing === "own"
                ? { recording, cueing: "silent" }
                : { recording },
            )
          }
        />
        {settings.recording === "seat" ? <SeatCautions groupId={groupId} leadsOn /> : null}
      </FieldPlace>
    </div>
  );
}
