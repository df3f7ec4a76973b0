import { axisX, axisY, dot, lineY, ruleX, ruleY } from "@observablehq/plot";
import { useMemo, useState } from "react";
import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import { groupDaySpread } from "../../../../shared/reading/group-day-spread.ts";
import {
  type Bouts,
  type PrecisionSettings,
  sessionPrecision,
  sessionsToTellChange,
} from "../../../../shared/schedule/precision.ts";
import { Figure, ink } from "../../../charts/figure.tsx";
import { useChangesTold } from "../../../compute/use-computed.ts";
import { Choices } from "../../../parts/field.tsx";
import { More } from "../../../parts/more.tsx";
import { useGroupCounts } from "../../../reading/use-reading.ts";
import { useFormats, useSay } from "../../../text/text.tsx";
import { useSettled } from "../fields/use-settled.ts";
import { sessionsToDraw } from "./sessions-to-draw.ts";
import { SpellFields } from "./spell-fields.tsx";
import { changesWanted, type DaySpread, daySpreads, type SpellName, spells } from "./spells.ts";

/** What sessions under this plan can tell about one student, and after how many. */
export function PrecisionNote({ plan, groupId }: { plan: PlanSettings; groupId: string }) {
  const say = useSay();
  const formats = useFormats();
  const [spell, setSpell] = useState<SpellName | "own">("medium");
  const [bouts, setBouts] = useState<Bouts>(spells.medium);
  const [change, setChange] = useState<number>(0.2);
  const [days, setDays] = useState<DaySpread | "own">("usual");
  const counts = useGroupCounts(groupId).data;
  const own = useMemo(() => (counts === undefined ? null : groupDaySpread(counts)), [counts]);
  const spread = days === "own" ? (own ?? daySpreads.usual) : daySpreads[days];
  const settled = useSettled(bouts, 350);
  const isUsable = settled.onSeconds > 0 && settled.offSeconds > 0;
  return (
    <section className="plan-precision" aria-labelledby="precision-title">
      <h3 id="precision-title">{say("precision.title")}</h3>
      <SpellFields
        chosen={spell}
        bouts={bouts}
        onChange={(chosen, next) => {
          setSpell(chosen);
          setBouts(next);
        }}
      />
      <Choices
        label={say("precision.days")}
        inRow
        value={days}
        choices={[
          ...dayNames.map((value) => ({ value, label: say(`precision.days.${value}`) })),
          ...(own === null
            ? []
            : [
                {
                  value: "own" as const,
                  label: say("precision.days.own", { points: formats.number(100 * own) }),
                },
              ]),
        ]}
        onChange={setDays}
      />
      <Choices
        label={say("precision.change")}
        inRow
        value={String(change)}
        choices={changesWanted.map((share) => ({
          value: String(share),
          label: say("precision.points", { points: formats.number(100 * share) }),
        }))}
        onChange={(value) => setChange(Number(value))}
      />
      {isUsable ? (
        <PrecisionFigure plan={plan} bouts={settled} change={change} daySpread={spread} />
      ) : (
        <p>{say("precision.needsSpells")}</p>
      )}
    </section>
  );
}

const dayNames = ["little", "usual", "much"] as const satisfies readonly DaySpread[];

function PrecisionFigure(props: {
  plan: PlanSettings;
  bouts: Bouts;
  change: number;
  daySpread: number;
}) {
  const { plan, bouts, change, daySpread } = props;
  const say = useSay();
  const formats = useFormats();
  const settings: PrecisionSettings = useMemo(
    () => ({ plan, bouts, daySpread }),
    [plan, bouts, daySpread],
  );
  const one = useMemo(() => sessionPrecision(settings), [settings]);
  const sessions = useMemo(() => sessionsToTellChange(settings, change), [settings, change]);
  const told = useChangesTold(settings, sessionsToDraw(sessions));
  const rows = told.map((row) => ({ sessions: row.sessions, points: 100 * row.change }));
  const answer = { sessions, points: 100 * change };
  const sd = 100 * one.standardDeviation;
  return (
    <>
      <Figure
        title={say("precision.title")}
        hideTitle
        summary={say("precision.summary", {
          reach: formats.number(1.96 * sd),
          sessions,
          points: formats.number(answer.points),
        })}
        drawnFrom={[told, change, sessions, say]}
        draw={(width) => ({
          width,
          height: 208,
          marginLeft: 52,
          marginTop: 28,
          marginBottom: 40,
          x: { label: say("precision.sessions"), domain: [0, sessionsToDraw(sessions)] },
          y: { label: say("precision.smallest"), domain: [0, 60], clamp: true },
          marks: [
            ruleY([0], { stroke: ink.text }),
            axisX({ ticks: 6 }),
            axisY({ ticks: 4 }),
            ruleY([answer], {
              x1: 0,
              x2: "sessions",
              y: "points",
              stroke: ink.clay,
              strokeDasharray: "4 3",
            }),
            ruleX([answer], {
              y1: 0,
              y2: "points",
              x: "sessions",
              stroke: ink.clay,
              strokeDasharray: "4 3",
            }),
            lineY(rows, { x: "sessions", y: "points", stroke: ink.lake, strokeWidth: 2 }),
            dot([answer], { x: "sessions", y: "points", r: 5, fill: ink.clay }),
          ],
        })}
        rows={rows}
        rowKey={(row) => String(row.sessions)}
        columns={[
          { label: say("precision.sessions"), cell: (row) => row.sessions },
          { label: say("precision.smallest"), cell: (row) => formats.number(row.points) },
        ]}
      />
      <p className="plan-caution">{say("precision.least")}</p>
      <More className="plan-more" label={say("precision.how")}>
        <p>
          {say("precision.howRate", {
            rate: formats.percent(one.trueRate),
            cues: Math.round(one.expectedCues),
            lower: formats.percent(one.lower),
            upper: formats.percent(one.upper),
            sd: formats.number(sd),
            likeness: formats.number(one.likeness, 2),
          })}
        </p>
        <p>{say("precision.howSessions", { days: formats.number(100 * daySpread) })}</p>
      </More>
    </>
  );
}
