import { useState } from "react";
import { type StandingNow, standingNow } from "../../../../shared/record/standing-now.ts";
import type { Student } from "../../../../shared/roster/roster.ts";
import { useTell } from "../../../api/queries.ts";
import { WorryAbout } from "../../../class/home/worry.tsx";
import { Interruptions } from "../../../live/interruptions.tsx";
import { NoteField } from "../../../live/note-field.tsx";
import { TurnLine, useTurnOf } from "../../../live/turn.tsx";
import type { LiveSession } from "../../../live/use-live-session.ts";
import { Button } from "../../../parts/button.tsx";
import { Switch } from "../../../parts/field.tsx";
import { LiveProblem } from "../../../parts/live-problem/live-problem.tsx";
import { useSay } from "../../../text/text.tsx";
import { RepeatChime } from "./repeat-chime.tsx";
import { StudentLine } from "./student-line.tsx";
import "./adult-view.css";

interface AdultViewProps {
  live: LiveSession;
  /** Whether students record on a screen. */
  records: boolean;
  /** Whether the adult has chosen that names stand here. */
  showsNames: boolean;
  onShowNames: (shows: boolean) => void;
}

/** What the adult sees and does while the class looks elsewhere: who has answered, and what happens. */
export function AdultView({ live, records, showsNames, onShowNames }: AdultViewProps) {
  const say = useSay();
  const { session, students, state } = live;
  const sessionId = session.id;
  const [isNoting, setNoting] = useState(false);
  const turn = useTurnOf(session.groupId, sessionId);
  const absent = useTell((api, input: { studentId: string; aside: boolean }) =>
    api.sessions.setAside({ sessionId, ...input }),
  );
  const standings = students.map((student) => ({
    student,
    standing: standingNow(state, student.id, records),
  }));
  return (
    <section className="adult" aria-label={say("adult.label")}>
      <div className="adult-head">
        <Counts
          standings={standings}
          cue={state.openCue}
          records={records}
          isOwn={session.plan.cueing === "own"}
        />
        <Switch label={say("adult.names")} value={showsNames} onChange={onShowNames} />
      </div>
      {session.plan.cueing === "own" ? <p>{say("ownCues.quiet")}</p> : null}
      {turn === null ? null : <TurnLine turn={turn} />}
      <ul className="adult-students">
        {standings.map(({ student, standing }, place) => (
          <StudentLine
            key={student.id}
            student={student}
            place={place + 1}
            standing={standing}
            showsNames={showsNames}
            onAbsent={(aside) => absent.mutate({ studentId: student.id, aside })}
          />
        ))}
      </ul>
      <LiveProblem error={absent.error} />
      <div className="adult-acts">
        <Button aria-expanded={isNoting} onPress={() => setNoting(!isNoting)}>
          {say("adult.note")}
        </Button>
        <RepeatChime live={live} />
        {showsNames ? <WorryAbout groupId={session.groupId} students={students} /> : null}
      </div>
      <Interruptions live={live} />
      {isNoting ? <NoteField sessionId={sessionId} label={say("notes.ofSession")} /> : null}
    </section>
  );
}

function Counts(props: {
  standings: readonly { readonly student: Student; readonly standing: StandingNow }[];
  cue: number | null;
  records: boolean;
  isOwn: boolean;
}) {
  const say = useSay();
  const { standings, cue, records, isOwn } = props;
  const count = (wanted: StandingNow) =>
    standings.filter(({ standing }) => standing === wanted).length;
  const absent = count("absent");
  const present = standings.length - absent;
  return (
    <p className="adult-counts">
      {records && cue !== null
        ? say("adult.counts", {
            cue,
            // Who said so has answered too.
            answered: count("answered") + count("away"),
            waiting: count("waiting"),
            absent,
          })
        : say("adult.here", { present, absent })}
      {records ? "" : ` ${say(isOwn ? "ownCues.onSeats" : "adult.onPaper")}`}
    </p>
  );
}
