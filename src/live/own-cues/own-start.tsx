import { Link } from "react-router";
import type { Student } from "../../../shared/roster/roster.ts";
import { useSeats } from "../../class/seats/use-seats.ts";
import { Switch } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { useSay } from "../../text/text.tsx";
import "./own-start.css";

interface OwnStartProps {
  groupId: string;
  planId: string;
  /** Of the session that is to start: printed keys and the session have the same cues. */
  seed: string;
  /** Who is here. */
  students: readonly Pick<Student, "id" | "name">[];
  byTouch: ReadonlySet<string>;
  onChange: (byTouch: ReadonlySet<string>) => void;
}

/**
 * Before a session of own cues: who has no device here, and whether an adult touches their desk instead, by
 * their printed key. Nobody else is asked anything.
 */
export function OwnStart(props: OwnStartProps) {
  const { groupId, planId, seed, students, byTouch, onChange } = props;
  const say = useSay();
  const seats = useSeats(groupId);
  if (seats === undefined) return null;
  const joined = new Set(seats.seats.flatMap(({ joined, studentId }) => (joined ? studentId : [])));
  const without = students.filter(({ id }) => !seats.isOpen || !joined.has(id));
  // Who was to be touched and has joined since stays in the list, so that it can be taken back.
  const listed = students.filter((student) => without.includes(student) || byTouch.has(student.id));
  const turn = (id: string, isOn: boolean) => {
    const next = new Set(byTouch);
    if (isOn) next.add(id);
    else next.delete(id);
    onChange(next);
  };
  return (
    <section className="own-start" aria-label={say("ownCues.title")}>
      <h3>{say("ownCues.title")}</h3>
      {seats.isOpen ? null : (
        <Notice kind="caution">
          {say("ownCues.closed")}{" "}
          <Link to={`/groups/${groupId}/seats`}>{say("ownCues.openSeats")}</Link>
        </Notice>
      )}
      <p role="status">
        {say("ownCues.without", { count: without.length, here: students.length - without.length })}
      </p>
      {listed.length === 0 ? null : (
        <>
          <p className="own-start-help">{say("ownCues.help")}</p>
          <ul className="own-start-names">
            {listed.map(({ id, name }) => (
              <li key={id} className="own-start-line">
                <Switch
                  label={say("ownCues.touchNamed", { name })}
                  value={byTouch.has(id)}
                  onChange={(isOn) => turn(id, isOn)}
                />
                {byTouch.has(id) ? (
                  <Link
                    to={`/print/cue-key/${planId}?${new URLSearchParams({ seed, student: id })}`}
                    aria-label={say("ownCues.keyNamed", { name })}
                  >
                    {say("ownCues.key")}
                  </Link>
                ) : null}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
