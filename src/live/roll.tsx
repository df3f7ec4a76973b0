import { ToggleButton } from "react-aria-components";
import type { Student } from "../../shared/roster/roster.ts";
import { useSay } from "../text/text.tsx";
import "./roll.css";

interface RollProps {
  students: readonly Pick<Student, "id" | "name">[];
  absent: ReadonlySet<string>;
  onChange: (absent: ReadonlySet<string>) => void;
}

/** Who is here today: everybody, until a press on a name says that this student is absent. */
export function Roll({ students, absent, onChange }: RollProps) {
  const say = useSay();
  const turn = (id: string, isAbsent: boolean) => {
    const next = new Set(absent);
    if (isAbsent) next.add(id);
    else next.delete(id);
    onChange(next);
  };
  return (
    <div className="roll">
      <p role="status">
        {say("roll.count", { here: students.length - absent.size, absent: absent.size })}
      </p>
      <ul className="roll-names" aria-label={say("roll.title")}>
        {students.map(({ id, name }) => (
          <li key={id}>
            <ToggleButton
              className="roll-name"
              isSelected={absent.has(id)}
              onChange={(isAbsent) => turn(id, isAbsent)}
              aria-label={say("roll.absentNamed", { name })}
            >
              <span>{name}</span>
              <span className="roll-word">{absent.has(id) ? say("roll.absent") : ""}</span>
            </ToggleButton>
          </li>
        ))}
      </ul>
    </div>
  );
}
