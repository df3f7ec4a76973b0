import { useState } from "react";
import { useTell } from "../../../api/queries.ts";
import type { LiveSession } from "../../../live/use-live-session.ts";
import { Button } from "../../../parts/button.tsx";
import { Switch } from "../../../parts/field.tsx";
import { Problem } from "../../../parts/problem.tsx";
import { useSay } from "../../../text/text.tsx";

const presets = ["drill", "visitor", "other"] as const;

/** What interrupts a lesson, each in one press; it pauses the session too where the adult chose so. */
export function Interruptions({ live }: { live: LiveSession }) {
  const say = useSay();
  const [pauses, setPauses] = useState(true);
  const sessionId = live.session.id;
  const isRunning = live.state.status === "running";
  const note = useTell(async (api, text: string) => {
    // The pause first: the clock should not run on while the note is on its way.
    if (pauses && isRunning) await api.sessions.pause({ sessionId });
    await api.sessions.interruption({ sessionId, note: text });
  });
  return (
    <fieldset className="adult-interruptions">
      <legend>{say("adult.interruption")}</legend>
      {presets.map((preset) => (
        <Button
          key={preset}
          isDisabled={note.isPending}
          onPress={() => note.mutate(say(`adult.interruption.${preset}`))}
        >
          {say(`adult.interruption.${preset}`)}
        </Button>
      ))}
      <Switch label={say("adult.pauses")} value={pauses} onChange={setPauses} />
      <span role="status" className="adult-said">
        {note.isSuccess ? say("adult.noted", { what: note.variables }) : ""}
      </span>
      <Problem error={note.error} />
    </fieldset>
  );
}
