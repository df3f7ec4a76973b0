import { useState } from "react";
import { Link } from "react-router";
import { useAsk } from "../../api/queries.ts";
import { TextField } from "../../parts/field.tsx";
import { NotHeld } from "../../parts/not-held.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

/** Letters and figures in a code. */
const codeLength = 4;

/** The code at the foot of the cards tells their plan and day, or that the session is here already. */
export function HeldCode() {
  const say = useSay();
  const [typed, setTyped] = useState("");
  const code = typed.trim().toUpperCase();
  return (
    <div className="held-code">
      <TextField
        label={say("cards.code")}
        help={say("held.codeHelp")}
        value={typed}
        onChange={setTyped}
        maxLength={12}
      />
      <div role="status">{code.length === codeLength ? <Found code={code} /> : null}</div>
    </div>
  );
}

function Found({ code }: { code: string }) {
  const say = useSay();
  const formats = useFormats();
  const answer = useAsk("sessions", ["code", code], (api) => api.records.sessionsOfCode({ code }));
  if (answer.data === undefined) return say("wait");
  const { sessions, plans, notHeld } = answer.data;
  if (sessions.length + plans.length + notHeld.length === 0) {
    return <p>{say("held.codeUnknown", { code })}</p>;
  }
  return (
    <>
      {sessions.map(({ id, groupName, planName, day, startedMs, offsetMinutes }) => (
        <p key={id}>
          {say("held.codeHere", {
            group: groupName,
            plan: planName,
            day: formats.fullDay(day),
            time: formats.time(startedMs, offsetMinutes),
          })}{" "}
          <Link to={`/session/${id}/cards`}>{say("cards.code.open")}</Link>
        </p>
      ))}
      {plans.map(({ groupId, groupName, planName }) => (
        <p key={`${groupId} ${planName}`}>
          {say("held.codePlan", { group: groupName, plan: planName })}
        </p>
      ))}
      <NotHeld found={notHeld} />
    </>
  );
}
