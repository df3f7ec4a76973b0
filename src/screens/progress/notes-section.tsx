import { useState } from "react";
import { attendedSessions } from "../../../shared/reading/attended.ts";
import type { CountedSession } from "../../../shared/record/group-counts.ts";
import { NoteField } from "../../live/note-field.tsx";
import { Choices } from "../../parts/field.tsx";
import { DayField } from "../../parts/moment-field.tsx";
import { More } from "../../parts/more.tsx";
import { Section } from "../../parts/page.tsx";
import { useVoice } from "../../words/use-voice.ts";
import type { SectionProps } from "./section-props.ts";

/** What was noted on the student's days, newest first: a substitute, a fire drill; and one note more. */
export function NotesSection({ counts, reading, name }: SectionProps) {
  const { say, formats } = useVoice();
  const attended = attendedSessions(counts, reading.studentId);
  const newest = attended.at(-1);
  if (newest === undefined) return null;
  const noted = attended.filter(({ note }) => note.trim() !== "").toReversed();
  return (
    <Section title={say("progress.notes")}>
      {noted.length === 0 ? (
        <p className="progress-facts">{say("notes.none", { name })}</p>
      ) : (
        <>
          <p className="progress-facts">{say("notes.lead", { name })}</p>
          <dl className="progress-notes">
            {noted.map(({ id, day, note }) => (
              <div key={id}>
                <dt>{formats.fullDay(day)}</dt>
                <dd>{note}</dd>
              </div>
            ))}
          </dl>
        </>
      )}
      <More className="progress-more" label={say("notes.add")}>
        <DayNote attended={attended} newest={newest} name={name} />
      </More>
    </Section>
  );
}

interface DayNoteProps {
  readonly attended: readonly CountedSession[];
  readonly newest: CountedSession;
  readonly name: string;
}

/** A note on any day on which the student took part, the newest one first. */
function DayNote({ attended, newest, name }: DayNoteProps) {
  const { say, formats } = useVoice();
  const [day, setDay] = useState(newest.day);
  const [chosen, setChosen] = useState<string | null>(null);
  const onDay = attended.filter((session) => session.day === day);
  const session = onDay.find(({ id }) => id === chosen) ?? onDay.at(-1);
  return (
    <div className="progress-decide">
      <div className="progress-span">
        <DayField label={say("notes.day")} value={day} onChange={setDay} />
        {onDay.length > 1 && session !== undefined ? (
          <Choices
            label={say("notes.session")}
            inRow
            value={session.id}
            choices={onDay.map(({ id, startedMs, offsetMinutes }) => ({
              value: id,
              label: formats.time(startedMs, offsetMinutes),
            }))}
            onChange={setChosen}
          />
        ) : null}
      </div>
      {session === undefined ? (
        <p role="status">{wordNone(attended, day, name)}</p>
      ) : (
        <NoteField
          key={session.id}
          sessionId={session.id}
          label={say("notes.onDay", { day: formats.fullDay(day) })}
        />
      )}
    </div>
  );

  function wordNone(sessions: readonly CountedSession[], wanted: string, student: string): string {
    // Days written YYYY-MM-DD sort as text.
    const before = sessions.findLast((held) => held.day < wanted);
    return before === undefined
      ? say("notes.noneBefore", { name: student })
      : say("notes.noSession", { name: student, day: formats.fullDay(before.day) });
  }
}
