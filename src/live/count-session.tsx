import { useState } from "react";
import type { Session } from "../../shared/api/sessions.ts";
import { useAsk, useTell } from "../api/queries.ts";
import { usePointsAllowed } from "../class/points/use-points.ts";
import { Button } from "../parts/button.tsx";
import { Dialog } from "../parts/dialog.tsx";
import { Choices, TextField } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import { Problem } from "../parts/problem.tsx";
import { useSay } from "../text/text.tsx";
import "./count-session.css";

/** Whether a session that is over counts: it is left out with a reason, and taken in again likewise. */
export function CountSession({ sessionId }: { sessionId: string }) {
  const say = useSay();
  const [asking, setAsking] = useState(false);
  const facts = useAsk("sessions", ["counts", sessionId], (api) => api.sessions.get({ sessionId }));
  const takeIn = useTell((api) => api.sessions.takeIn({ sessionId }));
  if (facts.data === undefined) return null;
  const { leftOutBecause } = facts.data;
  if (leftOutBecause !== null) {
    return (
      <Notice title={say("counting.leftOut")}>
        <p>{say("counting.because", { reason: leftOutBecause })}</p>
        <div>
          <Button isDisabled={takeIn.isPending} onPress={() => takeIn.mutate(undefined)}>
            {say("counting.takeIn")}
          </Button>
        </div>
        <Problem error={takeIn.error} />
      </Notice>
    );
  }
  return (
    <div className="count-session">
      <Button look="quiet" onPress={() => setAsking(true)}>
        {say("counting.leaveOut")}
      </Button>
      {asking ? <LeaveOut session={facts.data.session} onClose={() => setAsking(false)} /> : null}
    </div>
  );
}

const reasons = ["trial", "disturbed", "cues", "other"] as const;

function LeaveOut({ session, onClose }: { session: Session; onClose: () => void }) {
  const say = useSay();
  const [why, setWhy] = useState<(typeof reasons)[number]>("trial");
  const [other, setOther] = useState("");
  const isAllowed = usePointsAllowed();
  const earns = isAllowed && session.plan.earning.kind !== "none";
  const leave = useTell((api, reason: string) =>
    api.sessions.leaveOut({ sessionId: session.id, reason, isTrial: why === "trial" }),
  );
  const reason = why === "other" ? other.trim() : say(`counting.why.${why}`);
  return (
    <Dialog
      title={say("counting.leaveOut")}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{say("act.cancel")}</Button>
          <Button
            look="main"
            isDisabled={reason === "" || leave.isPending}
            onPress={() => leave.mutate(reason, { onSuccess: onClose })}
          >
            {say("counting.leaveOutNow")}
          </Button>
        </>
      }
    >
      <p>{say("counting.help")}</p>
      <Choices
        label={say("counting.why")}
        value={why}
        onChange={setWhy}
        choices={reasons.map((each) => ({ value: each, label: say(`counting.why.${each}`) }))}
      />
      {earns ? (
        <p className="count-points">
          {say(why === "trial" ? "counting.trialPoints" : "counting.keepsPoints")}
        </p>
      ) : null}
      {why === "other" ? (
        <TextField
          label={say("counting.otherWhy")}
          help={say("counting.noNames")}
          value={other}
          onChange={setOther}
          maxLength={200}
          autoFocus
        />
      ) : null}
      <Problem error={leave.error} />
    </Dialog>
  );
}
