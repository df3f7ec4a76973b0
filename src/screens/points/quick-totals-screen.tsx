import { useState } from "react";
import { Link, useNavigate, useParams } from "react-router";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { useTell } from "../../api/queries.ts";
import { type LiveSession, useLiveSession } from "../../live/use-live-session.ts";
import { Button } from "../../parts/button.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import "./points.css";

/** Cards counted at a glance: how many pluses each student has, so that points can be exchanged at once. */
export function QuickTotalsScreen() {
  const say = useSay();
  const { sessionId = "" } = useParams();
  const { live, error } = useLiveSession(sessionId);
  if (live === null || live.state.status !== "ended") {
    return (
      <Page title={say("quick.title")}>
        {error === null ? <p>{say("wait")}</p> : <Problem error={error} />}
      </Page>
    );
  }
  return <Totals key={sessionId} live={live} />;
}

/** Whether a plus pays anything of its own: in a class that is seldom checked on task alone does not. */
const paysPluses = ({ earning }: PlanSettings): boolean =>
  earning.kind !== "none" && earning.rules.on > 0;

function Totals({ live }: { live: LiveSession }) {
  const say = useSay();
  const navigate = useNavigate();
  const { session, students, state } = live;
  const here = students.filter(({ id }) => !state.setAside.has(id));
  const [typed, setTyped] = useState<ReadonlyMap<string, string>>(
    () => new Map([...state.pluses].map(([id, on]) => [id, String(on)])),
  );
  const save = useTell((api) => {
    const pluses = here.flatMap(({ id }) => {
      const text = typed.get(id) ?? "";
      return text === "" ? [] : [{ studentId: id, on: Number(text) }];
    });
    return api.points.savePluses({ sessionId: session.id, pluses });
  });
  return (
    <Page
      title={say("quick.title")}
      back={<Link to={`/session/${session.id}`}>{session.groupName}</Link>}
      lead={say("quick.lead")}
    >
      <form
        className="points-quick"
        onSubmit={(event) => {
          event.preventDefault();
          save.mutate(undefined, {
            onSuccess: () => navigate(`/groups/${session.groupId}/points`),
          });
        }}
      >
        {paysPluses(session.plan) ? null : (
          <Notice>
            {say("quick.paysNothing")}{" "}
            <Link to={`/session/${session.id}/cards`}>{say("quick.toCards")}</Link>
          </Notice>
        )}
        {here.map(({ id, name }, at) => (
          <label key={id} className="points-quick-row">
            <span>{name}</span>
            <input
              className="field-input"
              inputMode="numeric"
              pattern="[0-9]*"
              maxLength={3}
              // The first row is what the screen was opened for.
              // biome-ignore lint/a11y/noAutofocus: totals are typed as soon as it opens, and nothing stands before it
              autoFocus={at === 0}
              value={typed.get(id) ?? ""}
              onFocus={(event) => event.currentTarget.select()}
              onChange={(event) => {
                const digits = event.currentTarget.value.replace(/\D/g, "");
                setTyped((now) => new Map(now).set(id, digits));
              }}
            />
          </label>
        ))}
        <div>
          <Button type="submit" look="main" isDisabled={save.isPending}>
            {say("quick.save")}
          </Button>
        </div>
        <Problem error={save.error} />
        <p className="points-help">{say("quick.help")}</p>
      </form>
    </Page>
  );
}
