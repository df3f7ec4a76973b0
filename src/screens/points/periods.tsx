import { useState } from "react";
import type { PointsState } from "../../../shared/api/points.ts";
import type { Period } from "../../../shared/roster/privilege.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Switch, TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

type Kept = Omit<Period, "id">;

/** The stretches of the group's day, and which of them end with an exchange: the prices go by that. */
export function Periods({ groupId, points }: { groupId: string; points: PointsState }) {
  const say = useSay();
  const [name, setName] = useState("");
  const save = useTell((api, periods: readonly Kept[]) =>
    api.points.savePeriods({ groupId, periods: [...periods] }),
  );
  const kept = points.periods.map(({ id: _, ...period }): Kept => period);
  const change = (at: number, exchange: boolean) =>
    save.mutate(kept.map((period, place) => (place === at ? { ...period, exchange } : period)));
  return (
    <>
      <p className="points-help">{say("points.periodsHelp")}</p>
      <ul className="points-privileges">
        {points.periods.map((period, at) => (
          <li key={period.id}>
            <span className="points-who">{period.name}</span>
            <Switch
              label={say("points.exchangeAfter")}
              value={period.exchange}
              onChange={(exchange) => change(at, exchange)}
            />
            <Button
              look="quiet"
              isDisabled={save.isPending}
              aria-label={say("points.removeNamed", { privilege: period.name })}
              onPress={() => save.mutate(kept.filter((_, place) => place !== at))}
            >
              {say("act.remove")}
            </Button>
          </li>
        ))}
      </ul>
      <form
        className="points-offers"
        onSubmit={(event) => {
          event.preventDefault();
          const added = { name: name.trim(), starts: null, ends: null, exchange: true };
          if (added.name !== "") {
            save.mutate([...kept, added], { onSuccess: () => setName("") });
          }
        }}
      >
        <TextField
          label={say("points.periodName")}
          value={name}
          onChange={setName}
          maxLength={60}
        />
        <Button type="submit" isDisabled={name.trim() === "" || save.isPending}>
          {say("act.add")}
        </Button>
      </form>
      <Problem error={save.error} />
    </>
  );
}
