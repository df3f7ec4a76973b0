import { useState } from "react";
import type { SeenValue } from "../../../shared/session/event.ts";
import { observedKey } from "../../../shared/session/state.ts";
import { useTell } from "../../api/queries.ts";
import type { LiveSession } from "../../live/use-live-session.ts";
import { useNewestCue, useShowsCues } from "../../live/use-newest-cue.ts";
import { Button } from "../../parts/button.tsx";
import { LiveProblem } from "../../parts/live-problem/live-problem.tsx";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useSteady } from "../../parts/steady/use-steady.ts";
import { useSingleKeys } from "../../parts/use-single-keys.ts";
import { useSay } from "../../text/text.tsx";
import { observedStudents, turnAt } from "./turns.ts";
import "./observe.css";

/** An answer that was refused is sent once more after so long, in ms. */
const onceMoreMs = 400;

/** What can be said of a look, with its key. */
const answers = [
  ["on", "1"],
  ["off", "2"],
  ["unseen", "3"],
] as const satisfies readonly (readonly [SeenValue, string])[];

/**
 * One observer's part in a session: at each cue one student to look at, answered with one key. Nobody is
 * named before the cue, so that the look is at that moment and not at what led up to it.
 */
export function ObservePanel({ live, observer }: { live: LiveSession; observer: 1 | 2 }) {
  const say = useSay();
  const { session, state } = live;
  const [changingCue, setChangingCue] = useState<number | null>(null);
  const observe = useTell(
    async (api, input: { studentId: string; cue: number; value: SeenValue }) => {
      const send = () => api.sessions.observe({ sessionId: session.id, observer, ...input });
      try {
        return await send();
      } catch {
        // The cue stands here a moment before the log has it, and a quick answer may come in between.
        await new Promise((resolve) => setTimeout(resolve, onceMoreMs));
        return send();
      }
    },
  );
  const cue = useNewestCue(live);
  useShowsCues(session.id, cue, observer === 1);
  const student = cue === null ? null : turnAt(live, cue);
  const said =
    cue === null || student === null
      ? undefined
      : state.observed.get(observedKey(student.id, cue, observer));
  const isAsking = student !== null && (said === undefined || changingCue === cue);
  const answer = (value: SeenValue) => {
    if (cue === null || student === null) return;
    observe.mutate({ studentId: student.id, cue, value });
    setChangingCue(null);
  };
  useAnswerKeys(`${cue} ${isAsking}`, isAsking, answer);

  return (
    <section className="observe" aria-label={say("observe.panel")}>
      <p className="observe-ask" aria-live="assertive">
        {student === null
          ? say("observe.waiting")
          : isAsking
            ? say("observe.look", { name: student.name })
            : say("observe.saw", { name: student.name, value: said?.value ?? "unseen" })}
      </p>
      {isAsking ? (
        <div className="observe-answers">
          {answers.map(([value, key]) => (
            <SteadyButton
              key={value}
              className="observe-answer"
              shown={cue}
              onPress={() => answer(value)}
            >
              {say(`observe.${value}`)} <kbd>{key}</kbd>
            </SteadyButton>
          ))}
        </div>
      ) : null}
      {student !== null && !isAsking ? (
        <div>
          <Button look="quiet" onPress={() => setChangingCue(cue)}>
            {say("observe.change")}
          </Button>
        </div>
      ) : null}
      <LiveProblem error={observe.error} />
      <Looks live={live} observer={observer} />
    </section>
  );
}

/** How often each student was looked at; what was seen stays out of sight until the end. */
function Looks({ live, observer }: { live: LiveSession; observer: 1 | 2 }) {
  const say = useSay();
  const looks = [...live.state.observed.values()].filter((each) => each.observer === observer);
  return (
    <ul className="observe-looks" aria-label={say("observe.looks")}>
      {observedStudents(live).map(({ id, name }) => (
        <li key={id}>
          {say("observe.looksAt", {
            name,
            count: looks.filter(({ studentId }) => studentId === id).length,
          })}
        </li>
      ))}
    </ul>
  );
}

function useAnswerKeys(about: unknown, isAsking: boolean, answer: (value: SeenValue) => void) {
  const steady = useSteady(about);
  useSingleKeys((event) => {
    const found = answers.find(([, key]) => key === event.key);
    if (!isAsking || found === undefined) return;
    steady.begin();
    if (steady.isMeant()) answer(found[0]);
  });
}
