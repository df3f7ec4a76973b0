import { useState } from "react";
import { CheckboxGroup, Label } from "react-aria-components";
import type { Student } from "../../../shared/roster/roster.ts";
import type { PairLesson } from "../../../shared/teams/kept.ts";
import { useTell } from "../../api/queries.ts";
import { useLessonRows } from "../../class/teams/lesson-rows.ts";
import { announce } from "../../parts/announcer.tsx";
import { Button } from "../../parts/button.tsx";
import { CheckBox } from "../../parts/check-box.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** One lesson: who taught whom, and a tick for each pair that corrected both papers together. */
export function HeldLesson(props: {
  lesson: PairLesson;
  students: readonly Student[];
  /** Whether the group earns points just now. */
  earns: boolean;
}) {
  const say = useSay();
  const { lesson, students, earns } = props;
  const pays = earns && lesson.points > 0;
  const rows = useLessonRows(lesson, students);
  const [isRemoving, setRemoving] = useState(false);
  const correct = useTell((api, said: { studentIds: string[]; corrected: boolean }) =>
    api.pairs.correct({ lessonId: lesson.id, ...said }),
  );
  const remove = useTell((api) => api.pairs.remove({ lessonId: lesson.id }));
  const ticked = rows.filter(({ corrected }) => corrected).map(({ key }) => key);
  const idsOf = (keys: readonly string[]) =>
    rows.filter(({ key }) => keys.includes(key)).flatMap(({ studentIds }) => studentIds);
  const change = (keys: readonly string[]) => {
    const on = idsOf(keys.filter((key) => !ticked.includes(key)));
    const off = idsOf(ticked.filter((key) => !keys.includes(key)));
    const said = { corrected: keys.length, all: rows.length };
    const done = { onSuccess: () => announce(say("pairs.said.corrected", said)) };
    if (on.length > 0) correct.mutate({ studentIds: on, corrected: true }, done);
    if (off.length > 0) correct.mutate({ studentIds: off, corrected: false }, done);
  };
  return (
    <>
      <CheckboxGroup value={ticked} onChange={change} className="pairs-lesson">
        <Label>
          {say(pays ? "pairs.correctedPoints" : "pairs.corrected", {
            points: lesson.points,
          })}
        </Label>
        {rows.map(({ key, words }) => (
          <CheckBox key={key} value={key}>
            {words}
          </CheckBox>
        ))}
      </CheckboxGroup>
      <div className="pairs-acts">
        <Button
          isDisabled={ticked.length === rows.length}
          onPress={() => change(rows.map(({ key }) => key))}
        >
          {say("pairs.allCorrected")}
        </Button>
        <Button look="quiet" onPress={() => setRemoving(true)}>
          {say("pairs.remove")}
        </Button>
      </div>
      <Problem error={correct.error} />
      {isRemoving ? (
        <Dialog
          title={say("pairs.remove")}
          isOpen
          isAlert
          onClose={() => setRemoving(false)}
          actions={
            <>
              <Button onPress={() => setRemoving(false)}>{say("act.cancel")}</Button>
              <Button
                look="danger"
                isDisabled={remove.isPending}
                onPress={() =>
                  remove.mutate(undefined, {
                    onSuccess: () => announce(say("pairs.said.removed")),
                  })
                }
              >
                {say("pairs.removeNow")}
              </Button>
            </>
          }
        >
          <p>{say("pairs.removeHelp", { points: pays ? "yes" : "no" })}</p>
          <Problem error={remove.error} />
        </Dialog>
      ) : null}
    </>
  );
}
