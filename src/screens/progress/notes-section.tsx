import { Section } from "../../parts/page.tsx";
import type { SectionProps } from "./student-progress-screen.tsx";
import { useVoice } from "./use-voice.ts";

/** What was noted on days, newest first: a substitute, a fire drill, a bad night. */
export function NotesSection({ counts }: SectionProps) {
  const { say, formats } = useVoice();
  const noted = counts.sessions.filter(({ note }) => note.trim() !== "").toReversed();
  if (noted.length === 0) return null;
  return (
    <Section title={say("progress.notes")}>
      <dl className="progress-notes">
        {noted.map(({ id, day, note }) => (
          <div key={id}>
            <dt>{formats.day(day)}</dt>
            <dd>{note}</dd>
          </div>
        ))}
      </dl>
    </Section>
  );
}
