import type { ReactNode } from "react";
import { sessionSchedule } from "../../shared/schedule/session-schedule.ts";
import { deliveredCues, newestSoundProblem } from "../../shared/session/state.ts";
import { useFormats, useSay } from "../text/text.tsx";
import { CueSign } from "./cue-sign.tsx";
import { OwnTotals } from "./own-cues/own-totals.tsx";
import { SoundState } from "./sound-state.tsx";
import { StripActions } from "./strip-actions.tsx";
import { useCueSign } from "./use-cue-sign.ts";
import type { LiveSession } from "./use-live-session.ts";
import { useSessionSeconds } from "./use-session-time.ts";

interface StripProps {
  live: LiveSession;
  /** Whether nobody else looks at this window, so that names and the next cue's time may stand on the strip. */
  isPrivate: boolean;
  /** Where a cue that does not sound is shown on this page. */
  shownOn?: "board" | "tiles" | undefined;
  /** What stands in one line with the sound: how things are with the students' own devices. */
  standing?: ReactNode;
  /** What belongs to this kind of session alone, such as its spot checks. */
  children?: ReactNode;
}

/** What the teacher sees and does while teaching; everything is one press. */
export function Strip({ live, isPrivate, shownOn, standing, children }: StripProps) {
  const say = useSay();
  const formats = useFormats();
  const { session, state } = live;
  const isObserving = session.kind === "baseline" || session.kind === "probe";
  const isOwn = session.plan.cueing === "own";
  const isLive = state.status === "running" || state.status === "paused";
  const seconds = useSessionSeconds(state.lastSeq);
  const shownSeconds = isLive ? Math.min(seconds, session.plan.lengthSeconds) : state.atMs / 1000;

  return (
    <section className="strip" aria-label={say("strip.label")}>
      <div className="strip-facts">
        <strong className="strip-group" title={session.groupName}>
          {session.groupName}
        </strong>
        <span className="strip-fact">
          <span className="strip-name">{say("strip.elapsed")}</span>
          <span className="strip-value strip-value-time">
            {say("strip.of", {
              now: formats.clock(shownSeconds),
              all: formats.clock(session.plan.lengthSeconds),
            })}
          </span>
        </span>
        {/* Nothing here may tell when somebody is asked. */}
        {isOwn ? <OwnTotals state={state} seconds={shownSeconds} /> : <StripCues live={live} />}
        {isPrivate && !isOwn ? <NextCue live={live} seconds={seconds} /> : null}
        {isObserving || isOwn ? null : <StripCue live={live} isPrivate={isPrivate} />}
        {/* On a shared screen the board or the tiles beneath say it. */}
        <span className="strip-state" role={isPrivate ? "status" : undefined}>
          {say(`strip.${state.status}`)}
        </span>
        <StripActions live={live} />
      </div>
      {isLive ? (
        <div className="strip-standing">
          {standing}
          {session.plan.cueing === "sound" ? (
            <SoundState problem={newestSoundProblem(state)} shownOn={shownOn} />
          ) : null}
        </div>
      ) : null}
      {children}
    </section>
  );
}

function StripCues({ live: { state } }: { live: LiveSession }) {
  const say = useSay();
  return (
    <span className="strip-fact">
      <span className="strip-name">{say("strip.cues")}</span>
      <span className="strip-value">{deliveredCues(state).length}</span>
    </span>
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
      <span className="strip-value strip-value-next">
        {next === undefined ? say("strip.noMore") : formats.clock(Math.ceil(next - seconds))}
      </span>
    </span>
  );
}

/**
 * The sign of the newest cue, for the teacher. It makes a cue shown where the plan cues the teacher alone;
 * it is read out there, and where nothing else on the page says it.
 */
function StripCue({ live, isPrivate }: { live: LiveSession; isPrivate: boolean }) {
  const say = useSay();
  const isTeachers = live.session.plan.cueing === "teacher";
  const sign = useCueSign(live, { counts: isTeachers });
  return (
    <span className="strip-fact strip-cue">
      <CueSign sign={sign} />
      <strong className="strip-now" aria-live={isTeachers || isPrivate ? "polite" : undefined}>
        {sign.isAsking && !sign.isWordless ? say("strip.now") : ""}
      </strong>
    </span>
  );
}
