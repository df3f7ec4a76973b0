import { useState } from "react";
import type { DayOff } from "../../../shared/calendar/timetable.ts";
import { useDaysOff, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { DayField } from "../../parts/moment-field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

/** The school's days off: on them no session is expected. */
export function DaysOff() {
  const say = useSay();
  const words = useSpanWords();
  const days = useDaysOff();
  const remove = useTell((api, id: string) => api.calendar.remove({ id }));
  const shown = days.data ?? [];
  return (
    <div className="settings-days">
      <p>{say("daysOff.help")}</p>
      {shown.length === 0 ? (
        <p>{say("daysOff.none")}</p>
      ) : (
        <ul className="settings-days-list">
          {shown.map((each) => (
            <li key={each.id}>
              <span>{words(each)}</span>
              <Button
                look="quiet"
                isDisabled={remove.isPending}
                onPress={() => remove.mutate(each.id)}
                aria-label={say("daysOff.removeNamed", { days: words(each) })}
              >
                {say("act.remove")}
              </Button>
            </li>
          ))}
        </ul>
      )}
      <AddDays />
      <Problem error={remove.error} />
    </div>
  );
}

function AddDays() {
  const say = useSay();
  const [firstDay, setFirstDay] = useState("");
  const [lastDay, setLastDay] = useState("");
  const [label, setLabel] = useState("");
  const add = useTell((api, facts: Omit<DayOff, "id">) => api.calendar.add(facts));
  const clear = () => {
    setFirstDay("");
    setLastDay("");
    setLabel("");
  };
  return (
    <form
      className="settings-days-form"
      onSubmit={(event) => {
        event.preventDefault();
        const last = lastDay === "" ? firstDay : lastDay;
        add.mutate({ firstDay, lastDay: last, label }, { onSuccess: clear });
      }}
    >
      <DayField label={say("daysOff.first")} value={firstDay} onChange={setFirstDay} />
      <DayField
        label={say("daysOff.last")}
        value={lastDay}
        onChange={setLastDay}
        help={say("daysOff.lastHelp")}
      />
      <TextField label={say("daysOff.label")} value={label} onChange={setLabel} maxLength={60} />
      <Button type="submit" isDisabled={firstDay === "" || add.isPending}>
        {say("act.add")}
      </Button>
      <Problem error={add.error} />
    </form>
  );
}

/** One day, or the first and the last, with the label. */
function useSpanWords(): (days: DayOff) => string {
  const say = useSay();
  const formats = useFormats();
  return ({ firstDay, lastDay, label }) => {
    const named = label === "" ? "none" : "named";
    if (firstDay === lastDay) {
      return say("daysOff.oneDay", { day: yearly(formats.day(firstDay), firstDay), named, label });
    }
    const from = yearly(formats.day(firstDay), firstDay);
    const to = yearly(formats.day(lastDay), lastDay);
    return say("daysOff.span", { from, to, named, label });
  };
}

const yearly = (worded: string, day: string): string => `${worded} ${day.slice(0, 4)}`;
