import { useState } from "react";
import { useLiveSession } from "../../live/use-live-session.ts";
import { Choices } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { ObservedGrid } from "./observed-grid.tsx";
import { ObserverAgreement } from "./observer-agreement.tsx";
import { observedStudents } from "./turns.ts";
import "./observe.css";

/** The sheets of an observed session: the second observer's to type in, the first one's to correct. */
export function ObservedSheets({ sessionId }: { sessionId: string }) {
  const say = useSay();
  const { live, error } = useLiveSession(sessionId);
  const [observer, setObserver] = useState<"1" | "2">("2");
  if (live === null || live.state.status === "ready") return <Problem error={error} />;
  if (live.state.status !== "ended") return <Notice>{say("observe.endFirst")}</Notice>;
  if (observedStudents(live).length === 0) return <Notice>{say("observe.noLooks")}</Notice>;
  return (
    <>
      <Section title={say("observe.sheets")}>
        <Choices
          inRow
          label={say("observe.whose")}
          value={observer}
          onChange={setObserver}
          choices={[
            { value: "2", label: say("observe.secondSheet") },
            { value: "1", label: say("observe.firstSheet") },
          ]}
        />
        <ObservedGrid key={observer} live={live} observer={observer === "1" ? 1 : 2} />
      </Section>
      <ObserverAgreement state={live.state} />
    </>
  );
}
