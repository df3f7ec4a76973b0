import { useState } from "react";
import { useNavigate } from "react-router";
import type { Plan } from "../../../shared/api/plans.ts";
import type { HeldInput } from "../../../shared/api/records.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useTell } from "../../api/queries.ts";
import { Roll } from "../../live/roll.tsx";
import { Button } from "../../parts/button.tsx";
import { Choices, NumberField } from "../../parts/field.tsx";
import { Columns, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { HeldCode } from "./held-code.tsx";
import { HeldTicks } from "./held-ticks.tsx";
import { HeldWhen, type When } from "./held-when.tsx";
import { KeyFields } from "./key-fields.tsx";
import { keyOf, startedAt } from "./key-of.ts";

interface HeldFormProps {
  groupId: string;
  plans: readonly Plan[];
  students: readonly Student[];
  /** The plan that a code on cards stands for; null for the first. */
  firstPlanId: string | null;
  firstDay: string;
}

/** What is asked of a session held elsewhere; then its cards are typed in as always. */
export function HeldForm({ groupId, plans, students, firstPlanId, firstDay }: HeldFormProps) {
  const say = useSay();
  const navigate = useNavigate();
  const [planId, setPlanId] = useState(firstPlanId ?? plans[0]?.id ?? "");
  const [from, setFrom] = useState<HeldInput["cues"]["kind"]>("seed");
  const [seed, setSeed] = useState("");
  const [studentId, setStudentId] = useState<string | null>(null);
  const [missed, setMissed] = useState<ReadonlySet<number>>(new Set());
  const [count, setCount] = useState(10);
  const [when, setWhen] = useState<When>({ day: firstDay, time: "", who: "" });
  const [absent, setAbsent] = useState<ReadonlySet<string>>(new Set());
  const enter = useTell((api, input: HeldInput) => api.records.enterHeld(input));

  const [mean, setMean] = useState<number | null>(null);

  const plan = plans.find(({ id }) => id === planId);
  const meanSeconds = mean ?? plan?.settings.meanSeconds ?? 120;
  const key =
    plan === undefined ? null : keyOf(plan.settings, { seed: seed.trim(), studentId, meanSeconds });
  const moment = startedAt(when.day, when.time);
  // Which cues of a whole class's own keys did not come is on no one sheet.
  const areAllOwn = plan?.settings.cueing === "own" && studentId === null;
  const cameMissing = [...(areAllOwn ? [] : missed)].filter((cue) => cue <= (key?.length ?? 0));
  const isComplete = plan !== undefined && moment !== null && (from === "counted" || key !== null);

  const save = () => {
    if (moment === null) return;
    const cues: HeldInput["cues"] =
      from === "counted"
        ? { kind: "counted", count }
        : { kind: "seed", seed: seed.trim(), studentId, missed: cameMissing, meanSeconds };
    const led = when.who.trim();
    enter.mutate(
      {
        groupId,
        planId,
        cues,
        startedAt: moment,
        absentIds: [...absent],
        note: led === "" ? say("held.note") : say("held.noteBy", { who: led }),
      },
      { onSuccess: ({ id }) => navigate(`/session/${id}/cards`) },
    );
  };

  return (
    <div className="held">
      <Columns
        left={
          <>
            <HeldCode />
            <HeldWhen
              plans={plans}
              planId={planId}
              onPlan={(id) => {
                setPlanId(id);
                setMean(null);
              }}
              when={when}
              onChange={setWhen}
            />
            {from === "seed" && studentId !== null ? null : (
              <Section title={say("held.roll")}>
                <Roll students={students} absent={absent} onChange={setAbsent} />
              </Section>
            )}
          </>
        }
        right={
          <Section title={say("held.cues")}>
            <Choices
              label={say("held.from")}
              value={from}
              onChange={setFrom}
              choices={(["seed", "counted"] as const).map((value) => ({
                value,
                label: say(`held.from.${value}`),
                help: say(`held.from.${value}Help`),
              }))}
            />
            {from === "seed" ? (
              <KeyFields
                students={students}
                seed={seed}
                onSeed={setSeed}
                studentId={studentId}
                onStudent={setStudentId}
                meanSeconds={meanSeconds}
                onMean={setMean}
              >
                {areAllOwn ? (
                  <p>{say("ownCues.held")}</p>
                ) : key === null ? null : (
                  <HeldTicks cues={key} missed={missed} onChange={setMissed} />
                )}
              </KeyFields>
            ) : (
              <NumberField
                label={say("held.count")}
                value={count}
                onChange={setCount}
                minValue={1}
                maxValue={500}
              />
            )}
          </Section>
        }
      />
      <div>
        <Button look="main" isDisabled={!isComplete || enter.isPending} onPress={save}>
          {say("held.enter")}
        </Button>
      </div>
      {isComplete ? null : <p className="held-missing">{say("held.missing")}</p>}
      <Problem error={enter.error} />
    </div>
  );
}
