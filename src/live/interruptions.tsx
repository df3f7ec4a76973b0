import { useState } from "react";
import { useTell } from "../api/queries.ts";
import { Button } from "../parts/button.tsx";
import { Switch, TextField } from "../parts/field.tsx";
import { LiveProblem } from "../parts/live-problem/live-problem.tsx";
import { useSay } from "../text/text.tsx";
import type { LiveSession } from "./use-live-session.ts";
import "./interruptions.css";

const presets = ["drill", "visitor", "other"] as const;

interface InterruptionsProps {
  live: LiveSession;
  /** Whether it can be said in own words too. */
  inWords?: boolean;
}

/** What interrupts a lesson, each in one press; it pauses the session too where the adult chose so. */
export function Interruptions({ live, inWords = false }: InterruptionsProps) {
  const say = useSay();
  const [pauses, setPauses] = useState(true);
  const [words, setWords] = useState("");
  const sessionId = live.session.id;
  const isRunning = live.state.status === "running";
  const note = useTell(async (api, text: string) => {
    // The pause first: the clock should not run on while the note is on its way.
    if (pauses && isRunning) await api.sessions.pause({ sessionId });
    await api.sessions.interruption({ sessionId, note: text });
  });
  const written = words.trim();
  // No button is disabled meanwhile: it would lose the focus, and with it the way out by Escape.
  const keep = (text: string) => {
    if (text === "" || note.isPending) return;
    note.mutate(text, {
      onSuccess: () => {
        if (text === written) setWords("");
      },
    });
  };
  return (
    <fieldset className="interruptions">
      <legend>{say("adult.interruption")}</legend>
      {presets.map((preset) => (
        <Button key={preset} onPress={() => keep(say(`adult.interruption.${preset}`))}>
          {say(`adult.interruption.${preset}`)}
        </Button>
      ))}
      <Switch label={say("adult.pauses")} value={pauses} onChange={setPauses} />
      {inWords ? (
        <form
          className="interruptions-words"
          onSubmit={(event) => {
            event.preventDefault();
            keep(written);
          }}
        >
          <TextField
            label={say("strip.interruptionWhat")}
            help={say("strip.interruptionHelp")}
            value={words}
            onChange={setWords}
            maxLength={200}
          />
          <Button type="submit">{say("act.save")}</Button>
        </form>
      ) : null}
      <span role="status" className="interruptions-said">
        {note.isSuccess ? say("adult.noted", { what: note.variables }) : ""}
      </span>
      <LiveProblem error={note.error} />
    </fieldset>
  );
}
