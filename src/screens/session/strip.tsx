import { useState } from "react";
import { useNavigate } from "react-router";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { deliveredCues } from "../../../shared/session/state.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { TextField } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { wordProblem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { useCueSounder, useShowsCues } from "./cue-sounder.tsx";
import { SpotCheck } from "./spot-check.tsx";
import type { LiveSession } from "./use-live-session.ts";
import { useSecondsSinceCue } from "./use-seconds-since-cue.ts";
import { useSessionSeconds } from "./use-session-time.ts";

/** How long the sign of a cue for the teacher alone stays, in seconds as people feel them. */
const signSeconds = 10;

/**
 * What the teacher sees and does while teaching; everything is one press.
 *
 * @param isPrivate whether nobody else looks at this window, so that names may stand on the strip
 */
export function Strip({ live, isPrivate }: { live: LiveSession; isPrivate: boolean }) {
  const say = useSay();
  const { sound } = useCueSounder();
  const formats = useFormats();
  const { session, state } = live;
  const sessionId = session.id;
  const isObserving = session.kind === "baseline" || session.kind === "probe";
  const navigate = useNavigate();
  const isLive = state.status === "running" || state.status === "paused";
  const seconds = useSessionSeconds(state.lastSeq);
  const [noting, setNoting] = useState(false);
  const [ending, setEnding] = useState(false);
  const pause = useTell((api) => api.sessions.pause({ sessionId }));
  const resume = useTell((api) => api.sessions.resume({ sessionId }));
  const skip = useTell((api) => api.sessions.skipCue({ sessionId }));
  const end = useTell((api) => api.sessions.end({ sessionId }));
  const error = pause.error ?? resume.error ?? skip.error ?? end.error;
  const shownSeconds = isLive ? Math.min(seconds, session.plan.lengthSeconds) : state.atMs / 1000;

  return (
    <section className="strip" aria-label={say("strip.label")}>
      <div className="strip-facts">
        <strong className="strip-group">{session.groupName}</strong>
        <span className="strip-fact">
          <span className="strip-name">{say("strip.elapsed")}</span>
          <span className="strip-value">
            {say("strip.of", {
              now: formats.clock(shownSeconds),
              all: formats.clock(session.plan.lengthSeconds),
            })}
          </span>
        </span>
        <span className="strip-fact">
          <span className="strip-name">{say("strip.cues")}</span>
          <span className="strip-value">{deliveredCues(state).length}</span>
        </span>
        <NextCue live={live} seconds={seconds} />
        {session.plan.cueing === "teacher" ? <TeacherCue live={live} /> : null}
        <span className="strip-state">{say(`strip.${state.status}`)}</span>
      </div>
      {isLive ? (
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
      ) : (
        <div className="strip-actions">
          <Button onPress={() => navigate("/")}>{say("app.goToday")}</Button>
        </div>
      )}
      <SoundState live={live} />
      {error === null ? null : <Notice kind="caution">{wordProblem(say, error)}</Notice>}
      {isLive && !isObserving ? <SpotCheck live={live} isPrivate={isPrivate} /> : null}
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
    </section>
  );
}

/** When the next cue comes, for the teacher's eyes; kept from the teacher too when the plan says so. */
function NextCue({ live, seconds }: { live: LiveSession; seconds: number }) {
  const say = useSay();
  const formats = useFormats();
  const { plan, seed } = live.session;
  if (plan.hideNextCue || live.state.status === "ended") return null;
  const { cues } = sessionSchedule(plan, seed);
  const next = cues.find(
    (cue, index) => cue > seconds && live.state.cues.get(index + 1)?.standing !== "undelivered",
  );
  return (
    <span className="strip-fact">
      <span className="strip-name">{say("strip.next")}</span>
      <span className="strip-value">
        {next === undefined ? say("strip.noMore") : formats.clock(Math.ceil(next - seconds))}
      </span>
    </span>
  );
}

/** The cue of a plan that cues the teacher alone: a word on the strip for some seconds. */
function TeacherCue({ live }: { live: LiveSession }) {
  const say = useSay();
  useShowsCues();
  const since = useSecondsSinceCue(live);
  const isNow = live.state.status === "running" && since !== null && since < signSeconds;
  return (
    <span className="strip-fact" role="status">
      {isNow ? <strong className="strip-now">{say("strip.now")}</strong> : null}
    </span>
  );
}

/** Tells at once when a cue cannot sound, and what to do. */
function SoundState({ live }: { live: LiveSession }) {
  const say = useSay();
  const { sound } = useCueSounder();
  const { state } = live;
  const last = state.openCue === null ? undefined : state.cues.get(state.openCue);
  const lastProblem = last?.standing === "delivered" ? last.problem : null;
  if (state.status === "ended" || sound.status === "not-wanted") return null;
  if (sound.isSounder === false) {
    return <p className="strip-quiet">{say("sound.elsewhere")}</p>;
  }
  if (sound.status !== "ready" && sound.isSounder === true) {
    return (
      <Notice kind="caution" title={say(`sound.${sound.status}`)}>
        <p>{say("sound.shownInstead")}</p>
        <Button onPress={sound.unlock}>{say("sound.tryNow")}</Button>
      </Notice>
    );
  }
  if (lastProblem !== null) {
    return (
      <Notice kind="caution">
        {say("sound.lastFailed", { reason: lastProblem.replaceAll("-", "_") })}
      </Notice>
    );
  }
  return null;
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
      {save.error === null ? null : <Notice kind="caution">{wordProblem(say, save.error)}</Notice>}
    </Dialog>
  );
}
