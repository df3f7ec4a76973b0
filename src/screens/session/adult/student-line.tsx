import type { StandingNow } from "../../../../shared/record/standing-now.ts";
import type { Student } from "../../../../shared/roster/roster.ts";
import { Picture } from "../../../class/pictures/picture.tsx";
import { pictureNamed } from "../../../class/pictures/picture-names.ts";
import { Button } from "../../../parts/button.tsx";
import { useSay } from "../../../text/text.tsx";

/** By shape, so that no colour has to be told from another. */
const symbols: Readonly<Record<StandingNow, string>> = {
  answered: "✓",
  away: "×",
  waiting: "○",
  here: "·",
  absent: "–",
};

interface StudentLineProps {
  student: Student;
  /** Place in the list, from 1: what stands for the student where no name may. */
  place: number;
  standing: StandingNow;
  showsNames: boolean;
  onAbsent: (absent: boolean) => void;
}

/** One student for the adult's eyes: here or absent, answered or not, and the press that marks it. */
export function StudentLine(props: StudentLineProps) {
  const say = useSay();
  const { student, place, standing, showsNames, onAbsent } = props;
  const picture = pictureNamed(student.picture);
  const isAbsent = standing === "absent";
  const who = showsNames ? student.name : say("adult.place", { place });
  return (
    <li className={`adult-student adult-${standing}`}>
      <span className="adult-symbol" aria-hidden="true">
        {symbols[standing]}
      </span>
      {picture === null ? null : <Picture name={picture} />}
      <span className="adult-who">
        {showsNames || picture === null ? who : <span className="only-for-readers">{who}</span>}
      </span>
      <span className="adult-word">{say(`adult.standing.${standing}`)}</span>
      <Button
        look="quiet"
        onPress={() => onAbsent(!isAbsent)}
        aria-label={say(isAbsent ? "roll.hereNamed" : "roll.absentNamed", { name: who })}
      >
        <span
          className="adult-press"
          data-other={say(isAbsent ? "roll.markAbsent" : "roll.markHere")}
        >
          {say(isAbsent ? "roll.markHere" : "roll.markAbsent")}
        </span>
      </Button>
    </li>
  );
}
