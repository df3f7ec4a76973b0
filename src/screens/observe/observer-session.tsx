import { useCueSounder } from "../../live/cue-sounder.tsx";
import { OwnWindow } from "../../live/own-window.tsx";
import { Strip } from "../../live/strip.tsx";
import type { LiveSession } from "../../live/use-live-session.ts";
import { Switch } from "../../parts/field.tsx";
import { useSay } from "../../text/text.tsx";
import { ObservePanel } from "./observe-panel.tsx";
import { ObserverEnd } from "./observer-end.tsx";

/** A baseline or probe: the teacher watches, the class is not cued and records nothing. */
export function ObserverSession({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session, state } = live;
  const isLive = state.status === "running" || state.status === "paused";
  return (
    <div className="session">
      <h1 className="only-for-readers">{say("session.titleOf", { group: session.groupName })}</h1>
      <Strip live={live} isPrivate />
      {isLive ? <Watching live={live} /> : <ObserverEnd live={live} />}
    </div>
  );
}

function Watching({ live }: { live: LiveSession }) {
  const say = useSay();
  const { ticks, setTicks } = useCueSounder();
  return (
    <>
      <div className="session-views">
        <Switch label={say("observe.tick")} value={ticks} onChange={setTicks} />
        <OwnWindow
          label={say("observe.openSecond")}
          shows={{ name: "second-observer", sessionId: live.session.id }}
        />
      </div>
      <ObservePanel live={live} observer={1} />
      <p className="session-private">{say("observe.private")}</p>
    </>
  );
}
