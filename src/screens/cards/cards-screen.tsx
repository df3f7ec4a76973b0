import type { ReactNode } from "react";
import { Link, useParams } from "react-router";
import type { Session } from "../../../shared/api/sessions.ts";
import { useAsk } from "../../api/queries.ts";
import { CountSession } from "../../live/count-session.tsx";
import { More } from "../../parts/more.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { CardCode } from "./card-code.tsx";
import { CardGrid } from "./card-grid.tsx";
import { WorkTable } from "./work-table.tsx";
import "./cards.css";

interface CardsProps {
  /** The sheets of a session that adults recorded; they stand where a class's cards would. */
  observedSheets: (sessionId: string) => ReactNode;
}

/** After a session: what students marked on their cards, typed in or corrected. */
export function CardsScreen({ observedSheets }: CardsProps) {
  const say = useSay();
  const formats = useFormats();
  const { sessionId = "" } = useParams();
  const cards = useAsk("records", ["cards", sessionId], (api) => api.records.cards({ sessionId }));
  if (cards.data === undefined) {
    return (
      <Page title={say("cards.title")} back={<Link to="/">{say("nav.today")}</Link>}>
        {cards.error === null ? say("wait") : <Problem error={cards.error} />}
      </Page>
    );
  }
  const { session, cuesDelivered } = cards.data;
  const isObserved = session.kind === "baseline" || session.kind === "probe";
  const when = `${formats.day(session.day)}, ${formats.time(session.startedMs, session.offsetMinutes)}`;
  return (
    <Page
      title={say(isObserved ? "observe.sheetsOf" : "cards.titleOf", { group: session.groupName })}
      back={<Link to="/">{say("nav.today")}</Link>}
      lead={say(leadOf(session), { when, cues: cuesDelivered })}
      actions={<Link to={`/progress/${session.groupId}`}>{say("today.seeProgress")}</Link>}
    >
      <CountSession sessionId={session.id} />
      {isObserved ? (
        observedSheets(session.id)
      ) : (
        <Section title={say("cards.marks")}>
          {session.plan.recording === "paper" ? (
            <CardCode
              key={session.id}
              sessionId={session.id}
              code={cards.data.code}
              openCode={cards.data.openCode}
            />
          ) : null}
          <CardGrid
            key={session.id}
            sessionId={session.id}
            rows={cards.data.rows}
            boxesOnCard={cards.data.boxesOnCard}
          />
        </Section>
      )}
      <Section title={say("work.title")}>
        <WorkTable
          key={session.id}
          sessionId={session.id}
          rows={cards.data.rows}
          work={cards.data.work}
        />
      </Section>
      <More label={say("seed.ofSession")}>
        <p>{say("seed.ofSessionHelp", { seed: session.seed, plan: session.planName })}</p>
      </More>
    </Page>
  );
}

function leadOf({ kind, plan }: Session) {
  if (kind === "baseline" || kind === "probe") return "observe.sheetsLead";
  return plan.cueing === "own" ? "ownCues.cards" : "cards.lead";
}
