import { useState } from "react";
import { useNavigate } from "react-router";
import { useTell } from "../api/queries.ts";
import { Button } from "../parts/button.tsx";
import { Dialog } from "../parts/dialog.tsx";
import { TextField } from "../parts/field.tsx";
import { Problem } from "../parts/problem.tsx";
import { useSay } from "../text/text.tsx";
import { useCueSounder } from "./cue-sounder.tsx";
import type { LiveSession } from "./use-live-session.ts";

/** What the teacher can do with a running session, each with one press. */
export function StripActions({ live }: { live: LiveSession }) {
  const say = useSay();
  const { sound } = useCueSounder();
  const { session, state } = live;
  const sessionId = session.id;
  const navigate = useNavigate();
  const [noting, setNoting] = useState(false);
  const [ending, setEnding] = useState(false);
  const pause = useTell((api) => api.sessions.pause({ sessionId }));
  const resume = useTell((api) => api.sessions.resume({ sessionId }));
  const skip = useTell((api) => api.sessions.skipCue({ sessionId }));
  const end = useTell((api) => api.sessions.end({ sessionId }));

  if (state.status === "ended") {
    return (
      <div className="strip-actions">
        <Button onPress={() => navigate("/")}>{say("app.goToday")}</Button>
      </div>
    );
  }
  return (
    <>
      <div className="strip-actions">
        {state.status === "paused" ? (
          <Button
            look="main"
            onPress={() => {
              sound.unlock();
              resume.mutate(undefined);
            }}
          >
            {say("strip.resume")}
          </Button>
        ) : (
          <Button onPress={() => pause.mutate(undefined)}>{say("strip.pause")}</Button>
        )}
        <Button isDisabled={state.status !== "running"} onPress={() => skip.mutate(undefined)}>
          {say("strip.skip")}
        </Button>
        <Button onPress={() => setNoting(true)}>{say("strip.interruption")}</Button>
        <Button onPress={() => setEnding(true)}>{say("strip.end")}</Button>
      </div>
      <Problem error={pause.error ?? resume.error ?? skip.error ?? end.error} />
      {noting ? <Interruption sessionId={sessionId} onClose={() => setNoting(false)} /> : null}
      <Dialog
        title={say("strip.endTitle")}
        isOpen={ending}
        isAlert
        onClose={() => setEnding(false)}
        actions={
          <>
            <Button onPress={() => setEnding(false)}>{say("strip.keepOn")}</Button>
            <Button
              look="main"
              onPress={() => {
                setEnding(false);
                end.mutate(undefined);
              }}
            >
              {say("strip.endNow")}
            </Button>
          </>
        }
      >
        <p>{say("strip.endHelp")}</p>
      </Dialog>
    </>
  );
}

function Interruption({ sessionId, onClose }: { sessionId: string; onClose: () => void }) {
  const say = useSay();
  const [note, setNote] = useState("");
  const save = useTell((api, text: string) => api.sessions.interruption({ sessionId, note: text }));
  return (
    <Dialog
      title={say("strip.interruption")}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{say("act.cancel")}</Button>
          <Button
            look="main"
            isDisabled={save.isPending}
            onPress={() => save.mutate(note.trim(), { onSuccess: onClose })}
          >
            {say("act.save")}
          </Button>
        </>
      }
    >
      <TextField
        label={say("strip.interruptionWhat")}
        help={say("strip.interruptionHelp")}
        value={note}
        onChange={setNote}
        maxLength={200}
        autoFocus
      />
      <Problem error={save.error} />
    </Dialog>
  );
}
