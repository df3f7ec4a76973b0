import type { ReactNode } from "react";
import type { Student } from "../../../shared/roster/roster.ts";
import { NumberField, TextField } from "../../parts/field.tsx";
import { WhoseCues } from "../../parts/whose-cues.tsx";
import { useSay } from "../../text/text.tsx";

/** What tells which key it was: its seed, and whose cues stand on it. */
export function KeyFields(props: {
  students: readonly Student[];
  seed: string;
  onSeed: (seed: string) => void;
  studentId: string | null;
  onStudent: (studentId: string | null) => void;
  meanSeconds: number;
  onMean: (seconds: number) => void;
  children: ReactNode;
}) {
  const say = useSay();
  const { students, seed, onSeed, studentId, onStudent, meanSeconds, onMean, children } = props;
  return (
    <>
      <div className="held-row">
        <TextField
          label={say("seed.seed")}
          help={say("held.seedHelp")}
          value={seed}
          onChange={onSeed}
          maxLength={80}
        />
        <NumberField
          label={say("plan.mean")}
          help={say("held.meanHelp")}
          value={meanSeconds}
          onChange={(seconds) => {
            if (seconds >= 5 && seconds <= 10_800) onMean(seconds);
          }}
          minValue={5}
          maxValue={10_800}
          unit={say("held.seconds")}
        />
        <WhoseCues
          students={students}
          student={students.find(({ id }) => id === studentId) ?? null}
          onChange={onStudent}
        />
      </div>
      {children}
    </>
  );
}
