import { useEffect, useRef } from "react";
import { useNavigate } from "react-router";
import type { GroupPeriod } from "../../../shared/calendar/timetable.ts";
import {
  useAsides,
  useGroups,
  useOpenSession,
  usePutAside,
  useSettings,
  useTimetable,
} from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { preview } from "../../sound/preview.ts";
import { useSay } from "../../text/text.tsx";
import { useWordTime } from "../../words/use-word-time.ts";
import { useDay } from "./use-day.ts";
import "./period-reminder.css";

/** How loud the reminder is, where a teacher chose one that is heard. */
const softly = 0.25;

/**
 * That a period of the timetable begins: a slip over the corner of the page that moves nothing, without
 * sound unless the teacher chose one, and never during a session.
 */
export function PeriodReminder() {
  const say = useSay();
  const wordTime = useWordTime();
  const navigate = useNavigate();
  const open = useOpenSession();
  const groups = useGroups().data ?? [];
  const today = useTimetable().data?.today;
  const asides = useAsides();
  const putAside = usePutAside();
  const dayOf = useDay();
  const shown = groups
    .flatMap(({ id, name }) => {
      const { due } = dayOf(id);
      return due === null ? [] : [{ period: due, group: name, what: nameOf(due, today ?? "") }];
    })
    .find(({ what }) => asides !== undefined && !asides.has(what));
  const isShown = open === null && shown !== undefined;
  useSoftChime(isShown ? shown.what : null);
  return (
    <div className="period-reminder-place" role="status">
      {isShown ? (
        <div className="period-reminder">
          <p>
            {say("reminder.begins", {
              period: shown.period.name,
              group: shown.group,
              time: wordTime(shown.period.starts),
            })}
          </p>
          <Button look="main" onPress={() => navigate(`/groups/${shown.period.groupId}`)}>
            {say("reminder.open")}
          </Button>
          <Button onPress={() => putAside(shown.what, true)}>{say("reminder.notNow")}</Button>
        </div>
      ) : null}
    </div>
  );
}

/** A period of one day; saving the timetable anew gives new ids, so it goes by its words. */
const nameOf = ({ groupId, starts, name }: GroupPeriod, day: string): string =>
  `period ${day} ${groupId} ${starts} ${name}`.slice(0, 120);

/** Heard once for each reminder, where the teacher chose so. */
function useSoftChime(what: string | null): void {
  const settings = useSettings();
  const heard = useRef<string | null>(null);
  const isWanted = settings?.reminderSound === true;
  const chime = settings?.chime ?? "bell";
  useEffect(() => {
    if (what === null || !isWanted || heard.current === what) return;
    heard.current = what;
    void preview(chime, softly);
  }, [what, isWanted, chime]);
}
