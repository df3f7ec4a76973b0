import type { TeamsState } from "../../../shared/api/teams.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import type { TeamSettings } from "../../../shared/teams/kept.ts";
import { teamSizes } from "../../../shared/teams/meetings.ts";
import { useTell } from "../../api/queries.ts";
import { announce } from "../../parts/announcer.tsx";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { More } from "../../parts/more.tsx";
import { Problem } from "../../parts/problem.tsx";
import { SavedElsewhere } from "../../parts/sheet/saved-elsewhere.tsx";
import { useSharedForm } from "../../parts/sheet/use-shared-form.ts";
import { useSay } from "../../text/text.tsx";

interface TeamNamesProps {
  groupId: string;
  state: TeamsState;
  settings: TeamSettings;
  students: readonly Student[];
}

/** What the teams are called; the names stay while the students change. */
export function TeamNames({ groupId, state, settings, students }: TeamNamesProps) {
  const say = useSay();
  const count = teamSizes(students.length, Math.min(settings.size, students.length)).length;
  // Names of teams that there are too few students for now are kept for later.
  const kept: readonly string[] = Array.from(
    { length: Math.max(count, state.names.length) },
    (_, at) => state.names[at] ?? "",
  );
  const form = useSharedForm(kept);
  const names = form.facts;
  const save = useTell((api, typed: string[]) =>
    api.teams.saveNames({ groupId, names: typed, before: [...form.base] }),
  );
  return (
    <More label={say("teams.names")}>
      <form
        className="teams-form"
        onSubmit={(event) => {
          event.preventDefault();
          const typed = names.map((name) => name.trim());
          form.setFacts(typed);
          save.mutate(typed, { onSuccess: () => announce(say("teams.said.saved")) });
        }}
      >
        <p className="teams-help">{say("teams.namesHelp")}</p>
        <div className="teams-fields">
          {names.slice(0, count).map((name, at) => (
            <TextField
              // biome-ignore lint/suspicious/noArrayIndexKey: a team is its place
              key={at}
              label={say("teams.numbered", { team: at + 1 })}
              value={name}
              maxLength={30}
              onChange={(next) =>
                form.setFacts(names.map((each, place) => (place === at ? next : each)))
              }
            />
          ))}
        </div>
        <div className="teams-acts">
          <Button type="submit" isDisabled={save.isPending}>
            {say("act.save")}
          </Button>
        </div>
        {form.isOld ? (
          <SavedElsewhere onTake={form.takeKept} onKeep={form.keepMine} />
        ) : (
          <Problem error={save.error} />
        )}
      </form>
    </More>
  );
}
