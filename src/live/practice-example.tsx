import { useMemo } from "react";
import { useAsk } from "../api/queries.ts";
import { useSay } from "../text/text.tsx";
import { exampleAt, exampleOrder } from "./example-order.ts";
import type { LiveSession } from "./use-live-session.ts";
import { useSecondsSinceCue } from "./use-seconds-since-cue.ts";
import { useSessionSeconds } from "./use-session-time.ts";
import "./practice-example.css";

/** How long after a cue no example is shown, in seconds as people feel them. */
const restSeconds = 12;

/** Between the cues of a practice: one of the teacher's sentences, first as a question, then its answer. */
export function PracticeExample({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session, state } = live;
  const seconds = useSessionSeconds(state.lastSeq);
  const examples = useAsk("program", ["examples", session.groupId], (api) =>
    api.practice.examples({ groupId: session.groupId }),
  );
  const order = useMemo(
    () => (examples.data === undefined ? [] : exampleOrder(examples.data, session.seed)),
    [examples.data, session.seed],
  );
  const since = useSecondsSinceCue(live);
  const shown = exampleAt(order, seconds);
  if (shown === null || state.status !== "running") return null;
  const { example, isAnswered } = shown;
  // While the class asks itself about a cue nothing else is asked; the place is kept, so that nothing jumps.
  const isResting = since !== null && since < restSeconds;
  return (
    <div className={`practice-example ${isResting ? "practice-rests" : ""}`}>
      <p className="practice-question">{say("practice.isThisWorking")}</p>
      <p className="practice-sentence">{example.text}</p>
      <p className="practice-answer" aria-live="polite">
        {isAnswered ? say(example.isWorking ? "practice.yesWorking" : "practice.notWorking") : ""}
      </p>
    </div>
  );
}
