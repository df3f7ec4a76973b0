import type { ReactNode } from "react";
import { sessionSchedule } from "../../shared/schedule/session-schedule.ts";
import { deliveredCues, newestSoundProblem } from "../../shared/session/state.ts";
import { useFormats, useSay } from "../text/text.tsx";
import { useShowsCues } from "./cue-sounder.tsx";
import { SoundState } from "./sound-state.tsx";
import { StripActions } from "./strip-actions.tsx";
import type { LiveSession } from "./use-live-session.ts";
import { useSecondsSinceCue } from "./use-seconds-since-cue.ts";
import { useSessionSeconds } from "./use-session-time.ts";

/** How long the sign of a cue for the teacher alone stays, in seconds as people feel them. */
const signSeconds = 10;

interface StripProps {
  live: LiveSession;
  /** Whether nobody else looks at this window, so that names and the next cue's time may stand on the strip. */
  isPrivate: boolean;
  /** What belongs to this kind of session alone, such as its spot checks. */
  children?: ReactNode;
}

/** What the teacher sees and does while teaching; everything is one press. */
export function Strip({ live, isPrivate, children }: StripProps) {
  const say = useSay();
  const formats = useFormats();
  const { session, state } = live;
  const isObserving = session.kind === "baseline" || session.kind === "probe";
  const isLive = state.status === "running" || state.status === "paused";
  const seconds = useSessionSeconds(state.lastSeq);
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
        {isPrivate ? <NextCue live={live} seconds={seconds} /> : null}
        {session.plan.cueing === "teacher" && !isObserving ? <TeacherCue live={live} /> : null}
        <span className="strip-state">{say(`strip.${state.status}`)}</span>
        <StripActions live={live} />
      </div>
      {isLive ? <SoundState problem={newestSoundProblem(state)} /> : null}
      {children}
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
