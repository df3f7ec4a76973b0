import { useSay } from "../text/text.tsx";
import { NoteField } from "./note-field.tsx";
import type { LiveSession } from "./use-live-session.ts";

/** What was noted on a session that is over, and room for one note more. */
export function SessionNotes({ live }: { live: LiveSession }) {
  const say = useSay();
  const { notes } = live.state;
  return (
    <section className="session-notes">
      {notes.length === 0 ? null : (
        <>
          <h3>{say("notes.sofar")}</h3>
          <ul>
            {notes.map((text, at) => (
              // A note has no id, and the same words may be noted twice; its number in the list never changes.
              // biome-ignore lint/suspicious/noArrayIndexKey: notes are only ever added at the end
              <li key={at}>{text}</li>
            ))}
          </ul>
        </>
      )}
      <NoteField sessionId={live.session.id} label={say("notes.ofSession")} />
    </section>
  );
}
