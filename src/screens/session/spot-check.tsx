import { useEffect, useMemo, useState } from "react";
import { checkStepAfter } from "../../../shared/agreement/check-step.ts";
import { dayNumber, mondayOf } from "../../../shared/analysis/calendar.ts";
import type { GroupCounts } from "../../../shared/api/analysis.ts";
import type { Student } from "../../../shared/api/roster.ts";
import type { Session } from "../../../shared/api/sessions.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { spotCheckDraw } from "../../../shared/schedule/spot-check-draw.ts";
import { lateAfterMs } from "../../../shared/session/decide.ts";
import type { SeenValue } from "../../../shared/session/event.ts";
import { useAsk, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import type { LiveSession } from "./use-live-session.ts";
import { useSecondsSinceCue } from "./use-seconds-since-cue.ts";

/** Two students a check: enough to learn something, quick enough to do while teaching. */
const studentsPerCheck = 2;
/** A question about a moment is of no use once that moment is out of mind, in seconds. */
const openSeconds = lateAfterMs / 1000;
/** The keys for the students of a check, in order: working, not working. */
const keyPairs = [
  ["1", "2"],
  ["3", "4"],
  ["5", "6"],
  ["7", "8"],
] as const;

/**
 * Asks the teacher quietly, at drawn cues, what one or two students were doing. Only here on the strip,
 * never on the board; skipping it costs nothing.
 *
 * @param isPrivate whether names may stand here unasked; where students look at this window too, they
 *   come only after a press, and go with the answer
 */
export function SpotCheck({ live, isPrivate }: { live: LiveSession; isPrivate: boolean }) {
  const say = useSay();
  const { session, students, state } = live;
  const [skippedCue, setSkippedCue] = useState<number | null>(null);
  const [revealedCue, setRevealedCue] = useState<number | null>(null);
  const since = useSecondsSinceCue(live);
  const counts = useAsk("sessions", ["checks", session.groupId], (api) =>
    api.analysis.counts({ groupId: session.groupId }),
  );
  const check = useTell((api, input: Check) =>
    api.sessions.spotCheck({ sessionId: session.id, ...input }),
  );
  const draw = useMemo(
    () => (counts.data === undefined ? [] : drawFor(session, students, counts.data)),
    [session, students, counts.data],
  );

  const cue = state.openCue;
  const drawn = draw.find(({ cueIndex }) => cueIndex + 1 === cue)?.studentIds ?? [];
  const asked = students.filter(
    ({ id }) =>
      drawn.includes(id) &&
      !state.setAside.has(id) &&
      !state.spotChecks.some((done) => done.cue === cue && done.studentId === id),
  );
  const isOpen =
    cue !== null &&
    cue !== skippedCue &&
    state.status === "running" &&
    since !== null &&
    since < openSeconds;
  const due = isOpen ? asked : [];
  const shown = isPrivate || revealedCue === cue ? due : [];
  // What is seen soon after a cue is compared with the mark for it; later it stands for itself.
  const freeCue = since !== null && since < openSeconds ? cue : null;

  useCheckKeys(shown, (student, value) => check.mutate({ studentId: student.id, cue, value }));

  return (
    <div className="spot" role="group" aria-label={say("spot.label")}>
      {due.length > 0 && shown.length === 0 ? (
        <Button className="spot-look" onPress={() => setRevealedCue(cue)}>
          {say("spot.look")}
        </Button>
      ) : null}
      {shown.map((student, index) => (
        <CheckRow
          key={student.id}
          name={student.name}
          keys={keyPairs[index]}
          onSay={(value) => check.mutate({ studentId: student.id, cue, value })}
        />
      ))}
      {due.length > 0 ? (
        <Button look="quiet" onPress={() => setSkippedCue(cue)}>
          {say("spot.skip")}
        </Button>
      ) : null}
      <FreeCheck
        students={students.filter(({ id }) => !state.setAside.has(id))}
        onSay={(studentId, value) => check.mutate({ studentId, cue: freeCue, value })}
      />
      <Problem error={check.error} />
    </div>
  );
}

interface Check {
  studentId: string;
  cue: number | null;
  value: SeenValue;
}

/** A look at whomever the teacher chooses, at any time. */
function FreeCheck(props: {
  students: readonly Student[];
  onSay: (studentId: string, value: SeenValue) => void;
}) {
  const say = useSay();
  const { students, onSay } = props;
  const [isOpen, setOpen] = useState(false);
  const [chosenId, setChosenId] = useState<string | null>(null);
  const chosen = students.find(({ id }) => id === chosenId);
  const close = () => {
    setOpen(false);
    setChosenId(null);
  };
  if (!isOpen) {
    return (
      <Button look="quiet" onPress={() => setOpen(true)}>
        {say("spot.free")}
      </Button>
    );
  }
  return (
    <>
      {chosen === undefined ? (
        <div className="spot-row" role="group" aria-label={say("spot.whom")}>
          <span className="spot-name">{say("spot.whom")}</span>
          {students.map(({ id, name }) => (
            <Button key={id} onPress={() => setChosenId(id)}>
              {name}
            </Button>
          ))}
        </div>
      ) : (
        <CheckRow
          name={chosen.name}
          keys={undefined}
          onSay={(value) => {
            onSay(chosen.id, value);
            close();
          }}
        />
      )}
      <Button look="quiet" onPress={close}>
        {say("act.cancel")}
      </Button>
    </>
  );
}

function CheckRow(props: {
  name: string;
  keys: readonly [string, string] | undefined;
  onSay: (value: SeenValue) => void;
}) {
  const say = useSay();
  const { name, keys, onSay } = props;
  const hint = (key: string | undefined) => (key === undefined ? null : <kbd>{key}</kbd>);
  return (
    <div className="spot-row" role="group" aria-label={say("spot.ask", { name })}>
      <span className="spot-name">{say("spot.ask", { name })}</span>
      <Button onPress={() => onSay("on")}>
        {say("spot.on")} {hint(keys?.[0])}
      </Button>
      <Button onPress={() => onSay("off")}>
        {say("spot.off")} {hint(keys?.[1])}
      </Button>
      <Button look="quiet" onPress={() => onSay("unseen")}>
        {say("spot.unseen")}
      </Button>
    </div>
  );
}

/** Number keys answer for the teacher whose hand is on the keyboard; never while something is typed. */
function useCheckKeys(
  students: readonly Student[],
  onSay: (student: Student, value: SeenValue) => void,
) {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const isTyping =
        event.target instanceof HTMLElement && event.target.matches("input, textarea, select");
      if (isTyping || event.ctrlKey || event.metaKey || event.altKey) return;
      students.forEach((student, index) => {
        if (event.key === keyPairs[index]?.[0]) onSay(student, "on");
        if (event.key === keyPairs[index]?.[1]) onSay(student, "off");
      });
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  });
}

/** Which cues to check and whom, from the session's own stream and this week's earlier checks. */
function drawFor(session: Session, students: readonly Student[], counts: GroupCounts) {
  const week = mondayOf(dayNumber(session.day));
  const earlierChecks: Record<string, number> = {};
  for (const pair of counts.checks) {
    if (mondayOf(dayNumber(pair.day)) !== week) continue;
    earlierChecks[pair.studentId] = (earlierChecks[pair.studentId] ?? 0) + 1;
  }
  const checked = counts.sessions.map(({ id }) => {
    const pairs = counts.checks.filter(
      (pair) => pair.sessionId === id && pair.student !== "none" && pair.seen !== "unseen",
    );
    const matching = pairs.filter((pair) => pair.student === pair.seen).length;
    return { compared: pairs.length, matching };
  });
  return spotCheckDraw({
    seed: session.seed,
    cueCount: sessionSchedule(session.plan, session.seed).cues.length,
    // In a practice every cue is a chance to compare.
    every: session.kind === "practice" ? 1 : checkStepAfter(checked),
    studentIds: students.map(({ id }) => id),
    studentsPerCheck: Math.max(1, Math.min(studentsPerCheck, students.length)),
    earlierChecks,
  });
}
