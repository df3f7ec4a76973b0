import { ClassTimers } from "../class/points/class-timers.tsx";
import { useSay } from "../text/text.tsx";
import { CueSign, CueWords } from "./cue-sign.tsx";
import { PracticeExample } from "./practice-example.tsx";
import { useCueSign } from "./use-cue-sign.ts";
import type { LiveSession } from "./use-live-session.ts";
import "./board.css";

/**
 * What the class may look at: a resting pebble, and after a cue rings around it and the question. No
 * names, no numbers, no clock of the session; nothing that moves fast or flashes. A privilege that lasts some
 * minutes has its timer here.
 */
export function Board({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session } = live;
  const isShared = session.plan.cueing !== "teacher" && session.plan.cueing !== "own";
  const sign = useCueSign(live, { counts: isShared });
  // A plan that cues the teacher alone, or each student alone, asks the class nothing.
  const shown = isShared ? sign : { ...sign, isAsking: false };
  return (
    <section
      className={`board ${shown.isAsking ? "board-asks" : ""}`}
      aria-label={say("board.label")}
    >
      <CueSign sign={shown} />
      <CueWords
        sign={shown}
        asks={say("board.question")}
        quiet={say("board.working")}
        className="board-words"
      />
      <ClassTimers />
      {session.kind === "practice" ? <PracticeExample live={live} /> : null}
    </section>
  );
}
