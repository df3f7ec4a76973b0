import { useMemo } from "react";
import { useAsk } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";
import type { LiveSession } from "../session/use-live-session.ts";
import { useSessionSeconds } from "../session/use-session-time.ts";
import { exampleAt, exampleOrder } from "./example-order.ts";
import "./practice.css";

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
  const shown = exampleAt(order, seconds);
  if (shown === null || state.status !== "running") return null;
  const { example, isAnswered } = shown;
  return (
    <div className="practice-example" role="group" aria-label={say("practice.isThisWorking")}>
      <p className="practice-question">{say("practice.isThisWorking")}</p>
      <p className="practice-sentence">{example.text}</p>
      <p className="practice-answer" aria-live="polite">
        {isAnswered ? say(example.isWorking ? "practice.yesWorking" : "practice.notWorking") : ""}
      </p>
    </div>
  );
}
