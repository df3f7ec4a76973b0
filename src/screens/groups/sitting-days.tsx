import { CheckboxGroup, Label, Text } from "react-aria-components";
import { useIntl } from "react-intl";
import type { GroupWeekdays } from "../../../shared/calendar/timetable.ts";
import { useTell, useWeekdays } from "../../api/queries.ts";
import { CheckBox } from "../../parts/check-box.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import "./sitting-days.css";

const week = [1, 2, 3, 4, 5, 6, 7] as const;

/** On which weekdays the group sits; kept at the press. */
export function SittingDays({ groupId }: { groupId: string }) {
  const say = useSay();
  const intl = useIntl();
  const weekdays = useWeekdays(groupId);
  const save = useTell((api, wanted: GroupWeekdays) => api.calendar.saveWeekdays(wanted));
  // The first of January 2024 was a Monday.
  const nameOf = (weekday: number) =>
    intl.formatDate(`2024-01-0${weekday}T12:00:00Z`, { weekday: "long", timeZone: "UTC" });
  return (
    <>
      <CheckboxGroup
        className="field"
        value={weekdays.map(String)}
        onChange={(chosen) => save.mutate({ groupId, weekdays: chosen.map(Number) })}
      >
        <Label className="field-label">{say("groups.sits")}</Label>
        <div className="sitting-days">
          {week.map((weekday) => (
            <CheckBox
              key={weekday}
              value={String(weekday)}
              // A group that never sits would wait for nothing.
              isDisabled={weekdays.length === 1 && weekdays.includes(weekday)}
            >
              {nameOf(weekday)}
            </CheckBox>
          ))}
        </div>
        <Text slot="description" className="field-help">
          {say("groups.sitsHelp")}
        </Text>
      </CheckboxGroup>
      <Problem error={save.error} />
    </>
  );
}
