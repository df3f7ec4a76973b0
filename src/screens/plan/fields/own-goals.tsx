import { useStudents, useTell } from "../../../api/queries.ts";
import { usePoints } from "../../../class/points/use-points.ts";
import { Button } from "../../../parts/button.tsx";
import { NumberField } from "../../../parts/field.tsx";
import { More } from "../../../parts/more.tsx";
import { Problem } from "../../../parts/problem.tsx";
import { useSay } from "../../../text/text.tsx";

/** What a session's goal is for one student, where the plan's is too high or too low: kept at once, for all plans. */
export function OwnGoals({ groupId, planShare }: { groupId: string; planShare: number }) {
  const say = useSay();
  const students = useStudents(groupId).data ?? [];
  const ownGoals = usePoints(groupId)?.ownGoals ?? [];
  const save = useTell((api, input: { studentId: string; share: number | null }) =>
    api.points.saveOwnGoal(input),
  );
  return (
    <More label={say("earning.ownGoals", { count: ownGoals.length })}>
      <p>{say("earning.ownGoalsHelp")}</p>
      <ul className="earning-own-goals">
        {students.map(({ id, name }) => {
          const own = ownGoals.find(({ studentId }) => studentId === id);
          return (
            <li key={id}>
              <NumberField
                label={say("earning.ownGoalOf", { name })}
                unit="%"
                value={Math.round(100 * (own?.share ?? planShare))}
                minValue={5}
                maxValue={100}
                step={5}
                onChange={(value) => {
                  if (!Number.isFinite(value)) return;
                  const share = Math.min(100, Math.max(5, Math.round(value))) / 100;
                  if (share !== (own?.share ?? planShare)) save.mutate({ studentId: id, share });
                }}
              />
              <Button
                look="quiet"
                isDisabled={own === undefined}
                aria-label={say("earning.planGoalNamed", { name })}
                onPress={() => save.mutate({ studentId: id, share: null })}
              >
                {say("earning.planGoal")}
              </Button>
            </li>
          );
        })}
      </ul>
      <Problem error={save.error} />
    </More>
  );
}
