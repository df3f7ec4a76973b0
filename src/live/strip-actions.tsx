import { useState } from "react";
import { useNavigate } from "react-router";
import { useTell } from "../api/queries.ts";
import { Button } from "../parts/button.tsx";
import { Dialog } from "../parts/dialog.tsx";
import { LiveProblem } from "../parts/live-problem/live-problem.tsx";
import { Panel } from "../parts/panel.tsx";
import { SteadyButton } from "../parts/steady/steady-button.tsx";
import { useSay } from "../text/text.tsx";
import { useCueSounder } from "./cue-sounder.tsx";
import { Interruptions } from "./interruptions.tsx";
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

  const isPaused = state.status === "paused";

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
        <SteadyButton
          look={isPaused ? "main" : "plain"}
          className="strip-pause"
          shown={isPaused}
          onPress={() => {
            if (isPaused) sound.unlock();
            (isPaused ? resume : pause).mutate(undefined);
          }}
        >
          {say(isPaused ? "strip.resume" : "strip.pause")}
        </SteadyButton>
        {/* Of own cues none is everybody's next one. */}
        {session.plan.cueing === "own" ? null : (
          <Button isDisabled={state.status !== "running"} onPress={() => skip.mutate(undefined)}>
            {say("strip.skip")}
          </Button>
        )}
        <Panel label={say("adult.interruption")} isOpen={noting} onOpenChange={setNoting}>
          <Interruptions live={live} inWords />
        </Panel>
        <Button onPress={() => setEnding(true)}>{say("strip.end")}</Button>
      </div>
      <LiveProblem error={pause.error ?? resume.error ?? skip.error ?? end.error} />
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
