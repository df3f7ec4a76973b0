import { useIntl } from "react-intl";
import type { TeamsState } from "../../../shared/api/teams.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import type { TeamSettings } from "../../../shared/teams/kept.ts";
import { mostTeamRounds } from "../../../shared/teams/limits.ts";
import { fewestMembers } from "../../../shared/teams/team-outcome.ts";
import { useTell } from "../../api/queries.ts";
import { announce } from "../../parts/announcer.tsx";
import { Button } from "../../parts/button.tsx";
import { NumberField, Pick, Range, Switch } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { SavedElsewhere } from "../../parts/sheet/saved-elsewhere.tsx";
import { useSharedForm } from "../../parts/sheet/use-shared-form.ts";
import { useSay } from "../../text/text.tsx";

/** Common practice, no source: fours, one round a week of a term, a goal that a class can reach. */
const firstSettings: TeamSettings = {
  size: 4,
  rounds: 10,
  weekday: 1,
  goal: 0.7,
  points: 2,
  isShown: false,
};

const weekdays = ["1", "2", "3", "4", "5", "6", "7"] as const;

interface TermFormProps {
  groupId: string;
  state: TeamsState;
  students: readonly Student[];
}

/** How a term's teams are dealt, and what they work for. */
export function TermForm({ groupId, state, students }: TermFormProps) {
  const say = useSay();
  const intl = useIntl();
  const before = state.settings;
  const form = useSharedForm<TeamSettings>(before ?? firstSettings);
  const { facts } = form;
  const change = (part: Partial<TeamSettings>) => form.setFacts({ ...facts, ...part });
  const save = useTell((api, settings: TeamSettings) =>
    api.teams.saveSettings({ groupId, settings, before: before === null ? null : form.base }),
  );
  const isSame = before !== null && JSON.stringify(before) === JSON.stringify(facts);
  const whole = (value: number, least: number) => (Number.isFinite(value) ? value : least);
  const dayNames = weekdays.map((value) => ({
    value,
    // The first of January 2024 was a Monday.
    label: intl.formatDate(`2024-01-0${value}T12:00:00Z`, { weekday: "long", timeZone: "UTC" }),
  }));
  return (
    <form
      className="teams-form"
      onSubmit={(event) => {
        event.preventDefault();
        save.mutate(facts, { onSuccess: () => announce(say("teams.said.saved")) });
      }}
    >
      <div className="teams-fields">
        <NumberField
          label={say("teams.size")}
          value={facts.size}
          minValue={2}
          maxValue={Math.min(12, Math.max(2, students.length))}
          step={1}
          onChange={(size) => change({ size: whole(size, 2) })}
        />
        <NumberField
          label={say("teams.roundCount")}
          value={facts.rounds}
          minValue={1}
          maxValue={mostTeamRounds}
          step={1}
          onChange={(rounds) => change({ rounds: whole(rounds, 1) })}
        />
        <Pick
          label={say("teams.weekday")}
          value={weekdays[facts.weekday - 1] ?? "1"}
          choices={dayNames}
          onChange={(value) => change({ weekday: Number(value) })}
        />
      </div>
      <Switch
        label={say("teams.hasGoal")}
        value={facts.goal !== null}
        onChange={(has) => change({ goal: has ? (firstSettings.goal ?? null) : null })}
      />
      {facts.goal === null ? null : (
        <>
          <Range
            label={say("teams.goal")}
            value={facts.goal}
            onChange={(goal) => change({ goal: Math.max(0.05, goal) })}
            worded={say("teams.goalWorded", { of: Math.round(facts.goal * 20) })}
          />
          <p className="teams-help">{say("teams.goalHelp")}</p>
          {facts.size < fewestMembers ? <p role="note">{say("teams.goalTooSmall")}</p> : null}
          {state.earns ? (
            <div className="teams-fields">
              <NumberField
                label={say("teams.points")}
                value={facts.points}
                minValue={0}
                maxValue={20}
                step={1}
                onChange={(points) => change({ points: whole(points, 0) })}
              />
            </div>
          ) : null}
        </>
      )}
      <Switch
        label={say("teams.isShown")}
        value={facts.isShown}
        onChange={(isShown) => change({ isShown })}
      />
      <p className="teams-help">{say("teams.isShownHelp")}</p>
      <div className="teams-acts">
        <Button
          type="submit"
          look={before === null ? "main" : "plain"}
          isDisabled={isSame || save.isPending}
        >
          {say(before === null ? "teams.begin" : "act.save")}
        </Button>
      </div>
      {form.isOld ? (
        <SavedElsewhere onTake={form.takeKept} onKeep={form.keepMine} />
      ) : (
        <Problem error={save.error} />
      )}
    </form>
  );
}
