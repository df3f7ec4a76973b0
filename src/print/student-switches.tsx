import type { ReactNode } from "react";
import type { Student } from "../../shared/roster/roster.ts";
import { Switch } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import { useSay } from "../text/text.tsx";
import { useOption } from "./use-option.ts";

interface ChosenStudents {
  /** In the roster's order. */
  readonly students: readonly Student[];
  readonly turn: (id: string, isOn: boolean) => void;
  /** Said above the sheets where nobody is chosen. */
  readonly notes: ReactNode;
}

/** For whom is printed: everybody, until somebody is left out or one is asked for; kept in the address. */
export function useChosenStudents(all: readonly Student[]): ChosenStudents {
  const say = useSay();
  const [text, set] = useOption("students", "all");
  const students = text === "all" ? all : all.filter(({ id }) => text.split(",").includes(id));
  const now = new Set(students.map(({ id }) => id));
  return {
    students,
    turn: (id, isOn) => {
      const next = all.filter((each) => (each.id === id ? isOn : now.has(each.id)));
      set(next.length === all.length ? "all" : next.map((each) => each.id).join(",") || "none");
    },
    notes:
      students.length === 0 ? (
        <Notice kind="caution">{say("print.students.nobody")}</Notice>
      ) : undefined,
  };
}

/** A switch for each student. */
export function StudentSwitches(props: { students: readonly Student[]; chosen: ChosenStudents }) {
  const say = useSay();
  const { students, chosen } = props;
  return (
    <fieldset className="print-students">
      <legend>{say("print.students.who")}</legend>
      {students.map((student) => (
        <Switch
          key={student.id}
          label={student.name}
          value={chosen.students.includes(student)}
          onChange={(isOn) => chosen.turn(student.id, isOn)}
        />
      ))}
    </fieldset>
  );
}
