import { useState } from "react";
import { Link } from "react-router";
import { takesPart } from "../../shared/home/agreed.ts";
import { useAsk, useSettings, useTell } from "../api/queries.ts";
import { Button } from "../parts/button.tsx";
import { Dialog } from "../parts/dialog.tsx";
import { Problem } from "../parts/problem.tsx";
import { today } from "../text/device-time.ts";
import { useSay } from "../text/text.tsx";

interface WorryProps {
  readonly groupId: string;
  readonly student: { readonly id: string; readonly name: string };
}

/**
 * Can be pressed at any time: stops the program for one child at once, as a no to cues does, and shows whom
 * the school has named. Nothing is written down of what the worry is.
 */
export function Worry({ groupId, student: { id, name } }: WorryProps) {
  const say = useSay();
  const [isOpen, setOpen] = useState(false);
  const contact = useSettings()?.worryContact ?? "";
  const agreed = useAsk("home", ["agreed-one", id], (api) => api.agreed.of({ studentId: id })).data;
  const stop = useTell((api) =>
    api.agreed.say({
      studentId: id,
      said: { line: "cued", answer: "no", day: today(), who: say("worry.who") },
    }),
  );
  const isStopped = agreed !== undefined && !takesPart(agreed.said);
  return (
    <>
      <Button look="quiet" onPress={() => setOpen(true)}>
        {say("worry.open")}
      </Button>
      <Dialog
        title={say(isStopped ? "worry.open" : "worry.title", { name })}
        isOpen={isOpen}
        onClose={() => setOpen(false)}
        actions={
          <>
            <Button onPress={() => setOpen(false)}>
              {say(isStopped ? "act.close" : "act.cancel")}
            </Button>
            {isStopped ? null : (
              <Button
                look="main"
                isDisabled={agreed === undefined || stop.isPending}
                onPress={() => stop.mutate(undefined)}
              >
                {say("worry.stop", { name })}
              </Button>
            )}
          </>
        }
      >
        <p role="status">{isStopped ? say("worry.stopped", { name }) : ""}</p>
        {isStopped ? (
          <p>
            <Link to={`/groups/${groupId}/students/${id}/agreed`}>{say("worry.agreed")}</Link>
          </p>
        ) : (
          <p>{say("worry.body", { name })}</p>
        )}
        <p>
          <strong>{contact === "" ? say("worry.noContact") : say("worry.ask", { contact })}</strong>
        </p>
        <p>{say("worry.urgent")}</p>
        <Problem error={stop.error} />
      </Dialog>
    </>
  );
}
