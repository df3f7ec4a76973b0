import { useState } from "react";
import type { Student } from "../../../shared/roster/roster.ts";
import { usePlans, useStudents, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Choices, Pick, TextField } from "../../parts/field.tsx";
import { freshSeed } from "../../parts/fresh-seed.ts";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { WhoseCues } from "../../parts/whose-cues.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

type Form = "flac" | "wav";

interface Wanted {
  readonly planId: string;
  readonly seed: string;
  readonly form: Form;
  /** Null for the group's cues. */
  readonly student: Student | null;
}

/** A session's cues as one sound file, for any player. */
export function ChimeRecording({ groupId }: { groupId: string }) {
  const say = useSay();
  const formats = useFormats();
  const plans = usePlans(groupId).data ?? [];
  const [chosen, setChosen] = useState("");
  const [seed, setSeed] = useState("");
  const [form, setForm] = useState<Form>("wav");
  const students = useStudents(groupId).data ?? [];
  const [whose, setWhose] = useState<string | null>(null);
  const student = students.find(({ id }) => id === whose) ?? null;
  const record = useTell(async (api, { student, ...wanted }: Wanted) => {
    const own = student === null ? {} : { studentId: student.id };
    return {
      ...(await api.transfer.recordCues({ ...wanted, ...own })),
      seed: wanted.seed,
      student,
    };
  });
  const plan = plans.find(({ id }) => id === chosen) ?? plans[0];
  if (plan === undefined) return <p>{say("wait")}</p>;
  return (
    <div className="transfer-sound">
      <p>{say("transfer.soundHelp")}</p>
      <div className="transfer-columns">
        <Pick
          label={say("transfer.plan")}
          value={plan.id}
          choices={plans.map(({ id, name }) => ({ value: id, label: name }))}
          onChange={setChosen}
        />
        <div className="transfer-seed">
          <TextField
            label={say("seed.seed")}
            value={seed}
            onChange={setSeed}
            maxLength={80}
            help={say("transfer.seedHelp")}
          />
          <Button onPress={() => setSeed(freshSeed())}>{say("seed.another")}</Button>
        </div>
        <WhoseCues students={students} student={student} onChange={setWhose} />
      </div>
      <Choices
        label={say("transfer.form")}
        inRow
        value={form}
        choices={[
          { value: "wav", label: say("transfer.form.wav"), help: say("transfer.wavHelp") },
          { value: "flac", label: say("transfer.form.flac"), help: say("transfer.flacHelp") },
        ]}
        onChange={setForm}
      />
      <div className="transfer-row">
        <Button
          isDisabled={seed.trim() === "" || record.isPending}
          onPress={() => record.mutate({ planId: plan.id, seed: seed.trim(), form, student })}
        >
          {say("transfer.record")}
        </Button>
        {record.isPending ? <span role="status">{say("transfer.recording")}</span> : null}
      </div>
      {record.data === undefined ? null : (
        <div role="status">
          <Notice title={say("transfer.recorded")}>
            <p className="transfer-path">{record.data.path}</p>
            <p>
              {say("transfer.recordedCues", {
                whose: record.data.student === null ? "group" : "one",
                student: record.data.student?.name ?? "",
                seed: record.data.seed,
                stream: record.data.streamName,
              })}
            </p>
            <p>
              {say("transfer.recordedFacts", {
                length: formats.clock(record.data.seconds),
                megabytes: formats.number(record.data.bytes / 1_000_000, 1),
              })}
            </p>
          </Notice>
        </div>
      )}
      <Problem error={record.error} />
    </div>
  );
}
