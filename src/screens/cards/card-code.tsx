import { useState } from "react";
import { Link } from "react-router";
import type { Session } from "../../../shared/api/sessions.ts";
import { useAsk } from "../../api/queries.ts";
import { TextField } from "../../parts/field.tsx";
import { NotHeld } from "../../parts/not-held.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

/** Letters and figures in a code. */
const codeLength = 4;

interface CardCodeProps {
  sessionId: string;
  code: string;
  openCode: string;
}

/** The code on the cards of this session, and which session a stack with another code belongs to. */
export function CardCode({ sessionId, code, openCode }: CardCodeProps) {
  const say = useSay();
  const [typed, setTyped] = useState("");
  const wanted = typed.trim().toUpperCase();
  return (
    <div className="cards-code">
      <p>{say("print.cards.expected", { code, open: openCode })}</p>
      <TextField
        label={say("cards.code")}
        value={typed}
        onChange={setTyped}
        maxLength={12}
        help={say("cards.codeHelp")}
      />
      <div role="status">
        {wanted.length !== codeLength ? null : wanted === code || wanted === openCode ? (
          <p>{say(wanted === code ? "cards.code.ours" : "cards.code.ourPlan")}</p>
        ) : (
          <OtherStack sessionId={sessionId} code={wanted} />
        )}
      </div>
    </div>
  );
}

function OtherStack({ sessionId, code }: { sessionId: string; code: string }) {
  const say = useSay();
  const answer = useAsk("sessions", ["code", code], (api) => api.records.sessionsOfCode({ code }));
  if (answer.data === undefined) {
    return answer.error === null ? say("wait") : <Problem error={answer.error} />;
  }
  const sessions = answer.data.sessions.filter(({ id }) => id !== sessionId);
  const { plans, notHeld } = answer.data;
  if (sessions.length + plans.length + notHeld.length === 0) {
    return <p className="cards-problem">{say("cards.code.unknown", { code })}</p>;
  }
  return (
    <>
      {sessions.map((session) => (
        <SessionLine key={session.id} session={session} />
      ))}
      <NotHeld found={notHeld} />
      {plans.map(({ groupId, groupName, planName }) => (
        <p key={`${groupId} ${planName}`} className="cards-problem">
          {say("cards.code.otherPlan", { group: groupName, plan: planName })}
        </p>
      ))}
    </>
  );
}

function SessionLine({ session }: { session: Session }) {
  const say = useSay();
  const formats = useFormats();
  return (
    <p className="cards-problem">
      {say("cards.code.other", {
        group: session.groupName,
        plan: session.planName,
        day: formats.fullDay(session.day),
        time: formats.time(session.startedMs, session.offsetMinutes),
      })}{" "}
      <Link to={`/session/${session.id}/cards`}>{say("cards.code.open")}</Link>
    </p>
  );
}
