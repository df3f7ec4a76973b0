import { useState } from "react";
import type { PairsState } from "../../../shared/api/teams.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useTell } from "../../api/queries.ts";
import { Roll } from "../../live/roll.tsx";
import { announce } from "../../parts/announcer.tsx";
import { Button } from "../../parts/button.tsx";
import { NumberField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** What a pair gets for papers corrected together, to begin with. Common practice, no source. */
const firstPoints = 2;

interface BeginLessonProps {
  groupId: string;
  state: PairsState;
  students: readonly Student[];
  isMain: boolean;
}

/** Makes a lesson's pairs from who is here: today's roll first, changed by a press on a name. */
export function BeginLesson({ groupId, state, students, isMain }: BeginLessonProps) {
  const say = useSay();
  const [absent, setAbsent] = useState<ReadonlySet<string>>(
    new Set(state.absentIds.filter((id) => students.some((student) => student.id === id))),
  );
  const [points, setPoints] = useState(state.lessons.at(-1)?.points ?? firstPoints);
  const begin = useTell((api) =>
    api.pairs.begin({
      groupId,
      absentIds: [...absent],
      points: state.earns ? points : 0,
      lessons: state.lessons.length,
    }),
  );
  return (
    <>
      <Roll students={students} absent={absent} onChange={setAbsent} />
      {state.earns ? (
        <div className="pairs-points">
          <NumberField
            label={say("pairs.points")}
            help={say("pairs.pointsHelp")}
            value={points}
            minValue={0}
            maxValue={20}
            step={1}
            onChange={(value) => setPoints(Number.isFinite(value) ? value : 0)}
          />
        </div>
      ) : null}
      <div>
        <Button
          look={isMain ? "main" : "plain"}
          isDisabled={students.length - absent.size < 2 || begin.isPending}
          onPress={() =>
            begin.mutate(undefined, {
              onSuccess: () =>
                announce(say("pairs.said.begun", { lesson: state.lessons.length + 1 })),
            })
          }
        >
          {say("pairs.begin")}
        </Button>
      </div>
      <Problem error={begin.error} />
    </>
  );
}
