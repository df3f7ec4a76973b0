import type { OwnReading } from "../../../shared/reading/told/own-reading.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { Picture } from "../../class/pictures/picture.tsx";
import { pictureNamed } from "../../class/pictures/picture-names.ts";
import { useVoice } from "../../words/use-voice.ts";
import "./own.css";

interface OwnRecordProps {
  readonly student: Pick<Student, "name" | "picture">;
  readonly own: OwnReading;
  /** On-task rate to hold, 0 to 1; null where there is none. */
  readonly goal: number | null;
}

/**
 * A child's own last sessions, large enough to be looked at together: a pebble for each answer, filled for a
 * yes. Sized by its type, so that a screen and half a sheet of paper show the same.
 */
export function OwnRecord({ student, own, goal }: OwnRecordProps) {
  const { say, formats } = useVoice();
  const picture = pictureNamed(student.picture);
  const { sessions, share, on, marks } = own;
  const room = Math.max(fewestRoom, ...sessions.map((session) => session.marks));
  return (
    <article className="own" aria-label={say("own.of", { name: student.name })}>
      <header className="own-head">
        {picture === null ? null : (
          <span className="own-picture">
            <Picture name={picture} />
          </span>
        )}
        <h2>{student.name}</h2>
      </header>
      {sessions.length === 0 ? (
        <p className="own-lead">{say("own.none")}</p>
      ) : (
        <>
          <h3>{say("own.last")}</h3>
          <ul className="own-sessions">
            {sessions.map((session) => (
              <li key={session.sessionId}>
                <span className="own-day">{formats.day(session.day)}</span>
                <strong className="own-count">
                  {say("own.count", { on: session.on, marks: session.marks })}
                </strong>
                <Answers on={session.on} marks={session.marks} room={room} />
              </li>
            ))}
          </ul>
          {share === null ? null : (
            <p>{say("own.share", { on, marks, share: formats.percent(share) })}</p>
          )}
        </>
      )}
      {goal === null ? null : (
        <p className="own-lead">{say("own.goal", { goal: Math.round(10 * goal) })}</p>
      )}
      <p className="own-kind">{say("own.kind")}</p>
    </article>
  );
}

/** Pebbles for which a row has room at least, so that few are not drawn as boulders. */
const fewestRoom = 14;
/** More pebbles in a row could not be told apart. */
const mostDrawn = 30;

function Answers({ on, marks, room }: { on: number; marks: number; room: number }) {
  if (room > mostDrawn) return <span />;
  return (
    <svg className="own-pebbles" viewBox={`0 0 ${20 * room} 20`} aria-hidden="true">
      {Array.from({ length: marks }, (_, at) => (
        <ellipse
          // biome-ignore lint/suspicious/noArrayIndexKey: a pebble is its place in the row
          key={at}
          className={at < on ? "own-pebble own-pebble-yes" : "own-pebble"}
          cx={10 + 20 * at}
          cy={10 + (at % 3) - 1}
          rx={7 + (at % 2)}
          ry={6.5}
        />
      ))}
    </svg>
  );
}
