import { useState } from "react";
import { alternationOrders } from "../../../../shared/analysis/designs/alternation-test.ts";
import { alternationSessions } from "../../../../shared/phase/alternation.ts";
import type { Api } from "../../../api/api.ts";
import { useTell } from "../../../api/queries.ts";
import { NumberField, TextField } from "../../../parts/field.tsx";
import { freshSeed } from "../../../parts/fresh-seed.ts";
import { useVoice } from "../../../words/use-voice.ts";
import { DrawForm, useDrawing } from "./draw-form.tsx";

/**
 * Draws the order in which two conditions take turns. The order itself is not shown: who knew the next
 * sessions could choose what to do in them.
 */
export function AlternationForm({ groupId, onDone }: { groupId: string; onDone: () => void }) {
  const { say } = useVoice();
  const [nameA, setNameA] = useState("");
  const [nameB, setNameB] = useState("");
  const [sessions, setSessions] = useState<number>(alternationSessions.usual);
  const drawing = useDrawing<string>();
  const { drawn, times, change } = drawing;
  const save = useTell((api, facts: Parameters<Api["alternations"]["create"]>[0]) =>
    api.alternations.create(facts),
  );
  const [a, b] = [nameA.trim(), nameB.trim()];
  const areNamed = a !== "" && b !== "" && a !== b;
  const ways = alternationOrders(sessions).length;
  return (
    <DrawForm
      help={say("designs.alternationHelp")}
      drawing={drawing}
      before={
        areNamed ? say("designs.alternationReady", { ways, sessions }) : say("designs.nameBoth")
      }
      result={<p>{say("designs.alternationDrawn", { sessions })}</p>}
      drawLabel={say("designs.alternationDraw")}
      canDraw={areNamed}
      onDraw={() => drawing.keep(freshSeed())}
      save={save}
      onSave={() => {
        const facts = { groupId, nameA: a, nameB: b, sessions, seed: drawn ?? "", times };
        save.mutate(facts, { onSuccess: onDone });
      }}
      onDone={onDone}
    >
      <TextField
        label={say("designs.conditionA")}
        help={say("designs.conditionHelp")}
        value={nameA}
        maxLength={60}
        onChange={(text) => change(() => setNameA(text))}
      />
      <TextField
        label={say("designs.conditionB")}
        value={nameB}
        maxLength={60}
        onChange={(text) => change(() => setNameB(text))}
      />
      <NumberField
        label={say("designs.alternationSessions")}
        value={sessions}
        minValue={alternationSessions.fewest}
        maxValue={alternationSessions.most}
        step={2}
        onChange={(wanted) => change(() => setSessions(wanted))}
      />
    </DrawForm>
  );
}
