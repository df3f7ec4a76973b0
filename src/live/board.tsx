import { useSay } from "../text/text.tsx";
import { PracticeExample } from "./practice-example.tsx";
import type { LiveSession } from "./use-live-session.ts";
import { useSecondsSinceCue } from "./use-seconds-since-cue.ts";
import "./board.css";

/** How long the sign of a cue stays, in seconds as people feel them. */
const signSeconds = 15;

/**
 * What the class may look at: a resting pebble, and after a cue a ring around it and the question. No
 * names, no numbers, no clock; nothing that moves fast or flashes.
 */
export function Board({ live }: { live: LiveSession }) {
  const say = useSay();
  const { state, session } = live;
  const since = useSecondsSinceCue(live);
  const isShared = session.plan.cueing !== "teacher";
  const isAsking = isShared && state.status === "running" && since !== null && since < signSeconds;
  const words = isAsking
    ? say("board.question")
    : state.status === "running"
      ? say("board.working")
      : say(state.status === "paused" ? "board.paused" : "board.ended");
  return (
    <section className={`board ${isAsking ? "board-asks" : ""}`} aria-label={say("board.label")}>
      <Pebble />
      <p className="board-words" aria-live="polite">
        {words}
      </p>
      {session.kind === "practice" ? <PracticeExample live={live} /> : null}
    </section>
  );
}

/** Our own drawing: a pebble at rest, and the ring that a cue draws around it. */
function Pebble() {
  return (
    <svg className="board-pebble" viewBox="0 0 240 200" aria-hidden="true">
      <ellipse className="board-ring board-ring-far" cx="120" cy="104" rx="108" ry="84" />
      <ellipse className="board-ring" cx="120" cy="104" rx="88" ry="66" />
      <path
        className="board-stone"
        d="M62 112c-4-30 22-54 58-55 38-1 64 20 61 50-2 25-30 40-62 40-33 0-54-13-57-35z"
      />
      <path className="board-vein" d="M84 88c20-14 52-16 74-3" />
    </svg>
  );
}
