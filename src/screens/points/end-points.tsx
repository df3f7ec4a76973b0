import { useState } from "react";
import type { PointsState } from "../../../shared/api/points.ts";
import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { DayField } from "../../parts/moment-field.tsx";
import { More } from "../../parts/more.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

/** What is left can be spent for so many days more. */
const weekDays = 7;

/** The end of points: the plans pay no more, and what is left is spent within an announced week. */
export function EndPoints({ groupId, points }: { groupId: string; points: PointsState }) {
  const say = useSay();
  const formats = useFormats();
  const [until, setUntil] = useState(() => dayText(dayNumber(points.day) + weekDays));
  const end = useTell((api) => api.points.endEarning({ groupId, until }));
  return (
    <More label={say("points.ending")}>
      <p>{say("points.endingHelp")}</p>
      <DayField label={say("points.spendUntil")} value={until} onChange={setUntil} />
      <div className="points-offers">
        <Button
          look="danger"
          isDisabled={until < points.day || end.isPending}
          onPress={() => end.mutate(undefined)}
        >
          {say("points.endNow", { day: formats.day(until) })}
        </Button>
      </div>
      <Problem error={end.error} />
    </More>
  );
}

/** While what is left is being spent. */
export function Spending({ points }: { points: PointsState }) {
  const say = useSay();
  const formats = useFormats();
  if (points.spendUntil === null) return null;
  return (
    <Notice title={say("points.spending", { day: formats.day(points.spendUntil) })}>
      {say("points.spendingHelp")}
    </Notice>
  );
}
