import type { Student } from "../../shared/roster/roster.ts";
import { useSay } from "../text/text.tsx";
import { Pick } from "./field.tsx";

interface WhoseCuesProps {
  readonly students: readonly Student[];
  /** The student whose own cues they are; null for the group's. */
  readonly student: Student | null;
  readonly onChange: (studentId: string | null) => void;
}

const ofGroup = "group";

/** Chooses between the cues that a whole group hears and those of one student, from the same seed. */
export function WhoseCues({ students, student, onChange }: WhoseCuesProps) {
  const say = useSay();
  return (
    <Pick
      label={say("seed.whose")}
      help={say("seed.whoseHelp")}
      value={student?.id ?? ofGroup}
      choices={[
        { value: ofGroup, label: say("seed.ofGroup") },
        ...students.map(({ id, name }) => ({ value: id, label: name })),
      ]}
      onChange={(value) => onChange(value === ofGroup ? null : value)}
    />
  );
}
