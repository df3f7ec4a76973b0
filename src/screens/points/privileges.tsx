import { useState } from "react";
import type { PointsState } from "../../../shared/api/points.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import type { Privilege } from "../../../shared/roster/privilege.ts";
import { usePlans, useTell } from "../../api/queries.ts";
import { type PriceOutlook, usePrices } from "../../class/points/use-points.ts";
import { Button } from "../../parts/button.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { PrivilegeForm } from "./privilege-form.tsx";

/** To begin with: people, place and movement before things. Names come from the catalogue. */
const startList = [
  { key: "seat", picture: "house", band: 1, minutes: null, places: 4 },
  { key: "beside", picture: "bird", band: 1, minutes: null, places: null },
  { key: "hand-out", picture: "parcel", band: 1, minutes: null, places: 2 },
  { key: "stretch", picture: "sun", band: 2, minutes: 3, places: null },
  { key: "read-aloud", picture: "book", band: 2, minutes: 5, places: 1 },
  { key: "draw", picture: "pencil", band: 2, minutes: 10, places: null },
  { key: "teach", picture: "lantern", band: 3, minutes: 5, places: 1 },
  { key: "class-game", picture: "balloon", band: 3, minutes: 10, places: 1 },
] as const;

/** Used until the planner knows better. Common practice, no source. */
const firstPrices = { low: 5, middle: 12, high: 30 };

/** What points buy, with prices proposed from what the weakest student earns. */
export function Privileges({ groupId, points }: { groupId: string; points: PointsState }) {
  const plans = usePlans(groupId).data ?? [];
  const paying = plans.find(({ settings }) => settings.earning.kind !== "none");
  if (paying === undefined) return null;
  return <Priced groupId={groupId} points={points} settings={paying.settings} />;
}

function Priced(props: { groupId: string; points: PointsState; settings: PlanSettings }) {
  const say = useSay();
  const { groupId, points, settings } = props;
  const outlook = usePrices(groupId, settings, points);
  const [editing, setEditing] = useState<Privilege | "new" | null>(null);
  const bands = outlook?.prices.bands ?? null;
  const prices = {
    low: bands?.low ?? firstPrices.low,
    middle: bands?.middle ?? firstPrices.middle,
    high: bands === null ? firstPrices.high : (bands.high ?? bands.middle),
  };
  const add = useTell(async (api) => {
    for (const { key, picture, band, minutes, places } of startList) {
      const price = band === 1 ? prices.low : band === 2 ? prices.middle : prices.high;
      const name = say(`points.start.${key}`);
      const facts = { groupId, name, picture, price, band, places, minutes };
      await api.points.addPrivilege({ ...facts, perDay: null, notFor: [] });
    }
  });
  const archive = useTell((api, id: string) => api.points.archivePrivilege({ id }));
  return (
    <>
      {outlook === null ? null : <Proposal outlook={outlook} />}
      <ul className="points-privileges">
        {points.privileges.map((privilege) => (
          <li key={privilege.id}>
            <span className="points-who">{privilege.name}</span>
            <span>{say("points.count", { points: privilege.price })}</span>
            <span className="points-help">{say(`points.band.${privilege.band}`)}</span>
            <Button
              look="quiet"
              aria-label={say("points.changeNamed", { privilege: privilege.name })}
              onPress={() => setEditing(privilege)}
            >
              {say("points.change")}
            </Button>
            <Button
              look="quiet"
              aria-label={say("points.removeNamed", { privilege: privilege.name })}
              onPress={() => archive.mutate(privilege.id)}
            >
              {say("act.remove")}
            </Button>
          </li>
        ))}
      </ul>
      <div className="points-offers">
        <Button onPress={() => setEditing("new")}>{say("points.newPrivilege")}</Button>
        {points.privileges.length === 0 ? (
          <Button isDisabled={add.isPending} onPress={() => add.mutate(undefined)}>
            {say("points.addStartList")}
          </Button>
        ) : null}
      </div>
      <p className="points-help">{say("points.privilegesHelp")}</p>
      <Problem error={add.error ?? archive.error} />
      {editing === null ? null : (
        <PrivilegeForm
          groupId={groupId}
          privilege={editing === "new" ? null : editing}
          prices={prices}
          today={points.day}
          onClose={() => setEditing(null)}
        />
      )}
    </>
  );
}

/** The prices that fit, or what to change where none does. */
function Proposal({ outlook }: { outlook: PriceOutlook }) {
  const say = useSay();
  const formats = useFormats();
  const { bands, change } = outlook.prices;
  const values = { low: bands.low, middle: bands.middle, high: bands.high ?? 0 };
  return (
    <Notice title={say("points.proposal")}>
      <p>{say(bands.high === null ? "points.proposal.two" : "points.proposal.three", values)}</p>
      <p>{say("points.promise", { share: formats.percent(bands.promise) })}</p>
      {change === null ? null : (
        <p>
          {say(`points.rule.${change.kind}`, {
            points: change.kind === "give-more" ? change.pointsADay : 0,
            mean: formats.clock(change.kind === "denser-cues" ? change.meanSeconds : 0),
          })}
        </p>
      )}
      {outlook.borrowing === 0 ? null : (
        <p>{say("points.proposal.borrowed", { students: outlook.borrowing })}</p>
      )}
      <p className="points-help">{say("points.proposal.how")}</p>
    </Notice>
  );
}
