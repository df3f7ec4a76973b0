import { useAppInfo, useSaveSettings, useSettings } from "../api/queries.ts";
import { useSay } from "../text/text.tsx";
import { Button } from "./button.tsx";
import { More } from "./more.tsx";
import { Section } from "./page.tsx";

/** The lines of the changelog that a teacher wants to know, of the newest version. */
const first = [1, 2, 3] as const;
const rest = [4, 5, 6, 7, 8, 9] as const;

/** The line that speaks of points: nothing for a school that wants none. */
const aboutPoints = 5;

/** What is new, once after an update, until it is put away. */
export function WhatsNew() {
  const say = useSay();
  const settings = useSettings();
  const version = useAppInfo()?.version;
  const putAway = useSaveSettings();
  if (settings === undefined || version === undefined) return null;
  if (settings.newsSeen === version) return null;
  return (
    <Section title={say("news.title", { version })}>
      <Lines lines={first} />
      <div>
        <Button
          isDisabled={putAway.isPending}
          onPress={() => putAway.mutate({ newsSeen: version })}
        >
          {say("news.close")}
        </Button>
      </div>
      <More label={say("news.rest")}>
        <Lines lines={rest} />
      </More>
    </Section>
  );
}

function Lines({ lines }: { lines: readonly (typeof first | typeof rest)[number][] }) {
  const say = useSay();
  const hasPoints = useSettings()?.points ?? false;
  return (
    <ul className="whats-new">
      {lines
        .filter((line) => hasPoints || line !== aboutPoints)
        .map((line) => (
          <li key={line}>{say(`news.line.${line}`)}</li>
        ))}
    </ul>
  );
}
