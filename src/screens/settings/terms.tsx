import { useState } from "react";
import type { Term } from "../../../shared/calendar/timetable.ts";
import { useTell, useTerms } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { DayField } from "../../parts/moment-field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

/** The school's terms: charts offer the present one. */
export function Terms() {
  const say = useSay();
  const formats = useFormats();
  const terms = useTerms().data ?? [];
  const remove = useTell((api, id: string) => api.calendar.removeTerm({ id }));
  const yearly = (day: string) => `${formats.day(day)} ${day.slice(0, 4)}`;
  const worded = ({ name, firstDay, lastDay }: Term) =>
    say("terms.span", { name, from: yearly(firstDay), to: yearly(lastDay) });
  return (
    <div className="settings-days">
      <p>{say("terms.help")}</p>
      {terms.length === 0 ? null : (
        <ul className="settings-days-list">
          {terms.map((term) => (
            <li key={term.id}>
              <span>{worded(term)}</span>
              <Button
                look="quiet"
                isDisabled={remove.isPending}
                onPress={() => remove.mutate(term.id)}
                aria-label={say("terms.removeNamed", { term: worded(term) })}
              >
                {say("act.remove")}
              </Button>
            </li>
          ))}
        </ul>
      )}
      <AddTerm />
      <Problem error={remove.error} />
    </div>
  );
}

function AddTerm() {
  const say = useSay();
  const [name, setName] = useState("");
  const [firstDay, setFirstDay] = useState("");
  const [lastDay, setLastDay] = useState("");
  const add = useTell((api, facts: Omit<Term, "id">) => api.calendar.addTerm(facts));
  const isWhole = name.trim() !== "" && firstDay !== "" && lastDay !== "";
  return (
    <form
      className="settings-days-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!isWhole) return;
        add.mutate(
          { name: name.trim(), firstDay, lastDay },
          {
            onSuccess: () => {
              setName("");
              setFirstDay("");
              setLastDay("");
            },
          },
        );
      }}
    >
      <TextField
        label={say("terms.name")}
        value={name}
        onChange={setName}
        maxLength={60}
        autoComplete="off"
      />
      <DayField label={say("daysOff.first")} value={firstDay} onChange={setFirstDay} />
      <DayField label={say("daysOff.last")} value={lastDay} onChange={setLastDay} />
      <Button type="submit" isDisabled={!isWhole || add.isPending}>
        {say("act.add")}
      </Button>
      <Problem error={add.error} />
    </form>
  );
}
