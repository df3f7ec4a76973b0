import { useState } from "react";
import type { GroupPeriod } from "../../../shared/calendar/timetable.ts";
import { usePeriods, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { TimeField } from "../../parts/moment-field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { useWordTime } from "../../words/use-word-time.ts";

type Kept = Omit<GroupPeriod, "id" | "groupId">;

/** The times of the day at which the group does seatwork, one or several; kept at the press. */
export function DayTimes({ groupId }: { groupId: string }) {
  const say = useSay();
  const wordTime = useWordTime();
  const periods = usePeriods(groupId);
  const save = useTell((api, wanted: readonly Kept[]) =>
    api.points.savePeriods({ groupId, periods: [...wanted] }),
  );
  const kept = periods.map(({ id: _, groupId: __, ...period }): Kept => period);
  const worded = ({ name, starts, ends }: GroupPeriod) =>
    say("dayTimes.period", {
      name,
      kind: starts === null ? "none" : ends === null ? "from" : "span",
      starts: wordTime(starts),
      ends: wordTime(ends),
    });
  return (
    <div className="groups-times">
      <h3>{say("dayTimes.title")}</h3>
      <p className="field-help">{say("dayTimes.help")}</p>
      {periods.length === 0 ? null : (
        <ul className="groups-times-list">
          {periods.map((period, at) => (
            <li key={period.id}>
              <span>{worded(period)}</span>
              <Button
                look="quiet"
                isDisabled={save.isPending}
                aria-label={say("dayTimes.removeNamed", { period: worded(period) })}
                onPress={() => save.mutate(kept.filter((_, place) => place !== at))}
              >
                {say("act.remove")}
              </Button>
            </li>
          ))}
        </ul>
      )}
      <AddTime
        isBusy={save.isPending}
        onAdd={(period, done) => save.mutate([...kept, period], { onSuccess: done })}
      />
      <Problem error={save.error} />
    </div>
  );
}

function AddTime(props: { isBusy: boolean; onAdd: (period: Kept, done: () => void) => void }) {
  const say = useSay();
  const [name, setName] = useState("");
  const [starts, setStarts] = useState("");
  const [ends, setEnds] = useState("");
  const isBackwards = ends !== "" && starts !== "" && ends <= starts;
  const canAdd = name.trim() !== "" && starts !== "" && !isBackwards && !props.isBusy;
  return (
    <form
      className="groups-times-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!canAdd) return;
        const period = { name: name.trim(), starts, ends: ends === "" ? null : ends };
        props.onAdd({ ...period, exchange: false }, () => {
          setName("");
          setStarts("");
          setEnds("");
        });
      }}
    >
      <TextField
        label={say("dayTimes.name")}
        value={name}
        onChange={setName}
        maxLength={60}
        autoComplete="off"
      />
      <TimeField label={say("dayTimes.starts")} value={starts} onChange={setStarts} />
      <TimeField label={say("dayTimes.ends")} value={ends} onChange={setEnds} />
      <Button type="submit" isDisabled={!canAdd}>
        {say("act.add")}
      </Button>
      <p className="field-problem" role="status">
        {isBackwards ? say("dayTimes.backwards") : ""}
      </p>
    </form>
  );
}
