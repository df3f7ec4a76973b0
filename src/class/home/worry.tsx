import { useState } from "react";
import { Link } from "react-router";
import { takesPart } from "../../../shared/home/agreed.ts";
import { useAsk, useSettings, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Problem } from "../../parts/problem.tsx";
import { today } from "../../text/device-time.ts";
import { useSay } from "../../text/text.tsx";
import "./worry.css";

interface WorryProps {
  readonly groupId: string;
  readonly student: { readonly id: string; readonly name: string };
}

/** Can be pressed at any time, on a student's own page. */
export function Worry({ groupId, student }: WorryProps) {
  const say = useSay();
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <Button look="quiet" onPress={() => setOpen(true)}>
        {say("worry.open")}
      </Button>
      {isOpen ? (
        <WorryDialog groupId={groupId} student={student} onClose={() => setOpen(false)} />
      ) : null}
    </>
  );
}

/** The same where several students are, such as during a session: about whom is asked first. */
export function WorryAbout(props: { groupId: string; students: readonly WorryProps["student"][] }) {
  const say = useSay();
  const { groupId, students } = props;
  const [isOpen, setOpen] = useState(false);
  const [student, setStudent] = useState<WorryProps["student"] | null>(null);
  const close = () => {
    setOpen(false);
    setStudent(null);
  };
  return (
    <>
      <Button look="quiet" onPress={() => setOpen(true)}>
        {say("worry.open")}
      </Button>
      {student === null ? (
        <Dialog
          title={say("worry.about")}
          isOpen={isOpen}
          onClose={close}
          actions={<Button onPress={close}>{say("act.cancel")}</Button>}
        >
          <div className="worry-students">
            {students.map((one) => (
              <Button key={one.id} onPress={() => setStudent(one)}>
                {one.name}
              </Button>
            ))}
          </div>
        </Dialog>
      ) : (
        <WorryDialog groupId={groupId} student={student} onClose={close} />
      )}
    </>
  );
}

/**
 * Stops the program for one child at once, as a no to cues does, and shows whom the school has named. Nothing
 * is written down of what the worry is.
 */
function WorryDialog({
  groupId,
  student: { id, name },
  onClose,
}: WorryProps & { onClose: () => void }) {
  const say = useSay();
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
    <Dialog
      title={say(isStopped ? "worry.open" : "worry.title", { name })}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{say(isStopped ? "act.close" : "act.cancel")}</Button>
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
  );
}
