import { type ReactNode, useEffect, useRef, useState } from "react";
import { deliveredCount } from "../../../shared/session/state.ts";
import { useConnection } from "../../api/context.tsx";
import { SeatsOnStrip } from "../../class/seats/seats-on-strip.tsx";
import { Board } from "../../live/board.tsx";
import { ClassScreenButton } from "../../live/class-screen/class-screen-button.tsx";
import { openClassWindow } from "../../live/class-screen/own-window.ts";
import { isMute, useCueSounder } from "../../live/cue-sounder.tsx";
import { PointsStrip } from "../../live/points/points-strip.tsx";
import { Strip } from "../../live/strip.tsx";
import { RecordTiles } from "../../live/tiles/record-tiles.tsx";
import { useLastMarks } from "../../live/use-last-marks.ts";
import type { LiveSession } from "../../live/use-live-session.ts";
import { Button } from "../../parts/button.tsx";
import { focusOn } from "../../parts/keep-focus.ts";
import { useSay } from "../../text/text.tsx";
import { AdultView } from "./adult/adult-view.tsx";
import { useNamesShown } from "./adult/use-names-shown.ts";
import { PracticeEnd } from "./practice-end.tsx";
import { SessionEnd } from "./session-end.tsx";
import { SpotCheck } from "./spot-check.tsx";
import { TilesChoices } from "./tiles-choices.tsx";
import { UnseenCues } from "./unseen-cues.tsx";
import {
  classView,
  firstView,
  recordsLive,
  recordsOnScreen,
  type SessionView,
  viewsOf,
} from "./views.ts";
import "../../live/session.css";

/** The running session: the teacher's strip above, the class's board or the students' tiles below. */
export function SessionScreen({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session, state } = live;
  const isLive = state.status === "running" || state.status === "paused";
  const [view, setView] = useState<SessionView>(() => firstView(session));
  const [startedLive] = useState(isLive);
  const [showsNames, setShowsNames] = useNamesShown();
  const isPrivate = view === "strip";
  return (
    <div className="session">
      <h1 className="only-for-readers">{say("session.titleOf", { group: session.groupName })}</h1>
      <Strip
        live={live}
        isPrivate={isPrivate}
        shownOn={view === "tiles" ? "tiles" : "board"}
        standing={
          <SeatsOnStrip
            groupId={session.groupId}
            isPrivate={isPrivate}
            isWanted={session.plan.recording === "seat" || session.plan.cueing === "own"}
            earns={session.plan.earning.kind !== "none"}
          />
        }
      >
        {/* Of own cues whose name stands there was asked just now: where the class looks, nobody is named. */}
        {isLive && (isPrivate || session.plan.cueing !== "own") ? (
          <SpotCheck live={live} isPrivate={isPrivate && showsNames} />
        ) : null}
        {/* Never before the class: what is taken is nobody else's business. */}
        {isLive && isPrivate && showsNames ? <PointsStrip live={live} /> : null}
      </Strip>
      {isLive ? (
        <LiveArea live={live} view={view} onView={setView}>
          <AdultView
            live={live}
            records={recordsLive(session)}
            showsNames={showsNames}
            onShowNames={setShowsNames}
          />
        </LiveArea>
      ) : (
        <AfterEnd
          live={live}
          view={view}
          endedHere={startedLive}
          // On paper the teacher's view is the teacher's alone, and so is one that shows names.
          isShared={startedLive && !(isPrivate && (showsNames || !recordsLive(session)))}
        />
      )}
    </div>
  );
}

interface AreaProps {
  live: LiveSession;
  view: SessionView;
}

interface LiveAreaProps extends AreaProps {
  onView: (view: SessionView) => void;
  /** What is shown where no student looks. */
  children: ReactNode;
}

function LiveArea({ live, view, onView, children }: LiveAreaProps) {
  const say = useSay();
  const { api } = useConnection();
  const { sound } = useCueSounder();
  const views = viewsOf(live.session, view === "strip" || (sound.giver?.windows ?? 1) > 1);
  // A cue that cannot sound has to be seen somewhere.
  const shown = view === "strip" && isMute(sound) ? "board" : view;
  return (
    <>
      <div className="session-views">
        <fieldset className="session-switch">
          <legend className="only-for-readers">{say("session.show")}</legend>
          {views.map((each) => (
            <Button key={each} aria-pressed={view === each} onPress={() => onView(each)}>
              {say(`session.show.${each}`)}
            </Button>
          ))}
        </fieldset>
        <div className="session-windows">
          {views.includes("tiles") ? (
            <ClassScreenButton
              // The class looks there now: this window is the adult's own.
              onOpened={() => onView("strip")}
            />
          ) : null}
          <Button onPress={() => void openClassWindow(api, { name: "board" })}>
            {say("session.openBoard")}
          </Button>
        </div>
      </div>
      {views.includes("tiles") ? (
        <div className="session-tiles-line">
          {recordsOnScreen(live.session) && live.session.kind !== "practice" ? (
            <HandOver view={view} isOpen={(sound.giver?.windows ?? 1) > 1} />
          ) : null}
          <div className="session-windows">
            <TilesChoices live={live} />
          </div>
        </div>
      ) : null}
      {shown === "tiles" ? <RecordTiles live={live} /> : null}
      {shown === "board" ? <Board live={live} /> : null}
      {shown === "strip" ? children : null}
      {shown === "strip" && live.session.plan.cueing === "silent" ? (
        <UnseenCues onShow={() => onView(classView(live.session))} />
      ) : null}
    </>
  );
}

/** Says where the students record. Its line is kept, so that nothing moves when it has nothing to say. */
function HandOver({ view, isOpen }: { view: SessionView; isOpen: boolean }) {
  const say = useSay();
  return (
    <p className="session-hand-over" role="status">
      {view === "tiles" ? say("session.tilesBeside") : isOpen ? "" : say("session.handOver")}
    </p>
  );
}

interface AfterEndProps extends AreaProps {
  /** Whether the session ran when this page opened. */
  endedHere: boolean;
  /** Whether students may see this screen still. */
  isShared: boolean;
}

/**
 * After the end. Where the class was looking at this screen until now, names with percentages wait for
 * the teacher's press, and the last cue still takes its marks.
 */
function AfterEnd({ live, view, endedHere, isShared }: AfterEndProps) {
  const say = useSay();
  const place = useRef<HTMLDivElement>(null);
  const [asked, setAsked] = useState(!isShared);
  const cues = deliveredCount(live.state);
  // Without a cue there is nothing to record, and nothing to say of a first or last one.
  const takesMarks = useLastMarks(isShared) && cues > 0;
  // Whoever was at the controls goes on from what has taken their place.
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is asked for changes what is shown
  useEffect(() => {
    const heading = place.current?.querySelector("h2");
    if (endedHere && heading) focusOn(heading);
  }, [endedHere, asked]);
  return (
    <div className="session-after" ref={place}>
      {asked ? (
        live.session.kind === "practice" ? (
          <PracticeEnd live={live} />
        ) : (
          <SessionEnd live={live} />
        )
      ) : (
        <>
          <section className="session-end">
            <h2>{say("end.title")}</h2>
            <p>{say("end.sharedHelp", { cues })}</p>
            <div>
              <Button look="main" onPress={() => setAsked(true)}>
                {say("end.showResults")}
              </Button>
            </div>
          </section>
          {view === "tiles" && takesMarks ? <RecordTiles live={live} /> : <Board live={live} />}
        </>
      )}
    </div>
  );
}
