import { Link, useParams } from "react-router";
import type { SeatsState } from "../../../shared/api/seats.ts";
import { useGroups, useSaveSettings, useSettings, useTell } from "../../api/queries.ts";
import { usePointsShown } from "../../class/points/use-points.ts";
import { SeatCautions } from "../../class/seats/seat-cautions.tsx";
import { useSeats } from "../../class/seats/use-seats.ts";
import { Button } from "../../parts/button.tsx";
import { Switch } from "../../parts/field.tsx";
import { More } from "../../parts/more.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { PocketCode } from "./pocket-code.tsx";
import { SeatList } from "./seat-list.tsx";
import "./seats.css";

/** A group's seats: open or closed, who has joined and who sleeps. For the adult alone. */
export function SeatsScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const group = useGroups().data?.find(({ id }) => id === groupId);
  const settings = useSettings();
  const seats = useSeats(groupId);
  if (group === undefined || settings === undefined || seats === undefined) {
    return <Page title={say("seat.title")}>{say("wait")}</Page>;
  }
  const back = <Link to={`/groups/${group.id}`}>{group.name}</Link>;
  if (!settings.seats) {
    return (
      <Page title={say("seat.title")} back={back} lead={say("seat.settings.help")}>
        <p>
          {say("refused.seats-off")} <Link to="/settings">{say("nav.settings")}</Link>
        </p>
      </Page>
    );
  }
  return (
    <Page
      title={say("seat.titleOf", { group: group.name })}
      back={back}
      lead={say("seat.lead")}
      actions={<Link to={`/print/seats/${group.id}`}>{say("seat.slips")}</Link>}
    >
      <Opening groupId={group.id} seats={seats} />
      <Section title={say("seat.list")}>
        <SeatList groupId={group.id} seats={seats.seats} />
      </Section>
      <SeatCautions groupId={group.id} />
      <Section title={say("seat.sheets")}>
        <p>
          <Link to={`/print/seats/${group.id}/sheets`}>{say("seat.sheet.all")}</Link>
        </p>
      </Section>
    </Page>
  );
}

function Opening({ groupId, seats }: { groupId: string; seats: SeatsState }) {
  const say = useSay();
  const showsPoints = usePointsShown(groupId);
  const open = useTell((api) => api.seats.open());
  const close = useTell((api) => api.seats.close());
  const { isOpen, until, closedBecause, addresses, movedFrom, pocketCode, joiningPaused } = seats;
  const { certificateProblem, isSecure } = seats;
  const [first, ...others] = addresses;
  return (
    <section className="seats-opening" aria-label={say("seat.state")}>
      <p className="seats-standing" role="status">
        {isOpen
          ? say("seat.isOpen", { until: until ?? "" })
          : say(`seat.closed.${closedBecause ?? "never"}`)}
      </p>
      {isOpen ? (
        <Button isDisabled={close.isPending} onPress={() => close.mutate(undefined)}>
          {say("seat.close")}
        </Button>
      ) : (
        <Button look="main" isDisabled={open.isPending} onPress={() => open.mutate(undefined)}>
          {say("seat.open")}
        </Button>
      )}
      {/* What is wrong with the certificate stands below already. */}
      <Problem error={(certificateProblem === null ? open.error : null) ?? close.error} />
      {joiningPaused ? <Notice kind="caution">{say("seat.paused")}</Notice> : null}
      {certificateProblem === null ? null : (
        <Notice kind="caution">
          {say("refused.seats-certificate", { problem: certificateProblem })}
        </Notice>
      )}
      {movedFrom === null ? null : (
        <Notice kind="caution">{say("seat.moved", { address: movedFrom })}</Notice>
      )}
      <dl className="seats-facts">
        <dt>{say("seat.address")}</dt>
        <dd>
          {first === undefined ? (
            certificateProblem === null ? (
              say("seat.noAddress")
            ) : null
          ) : (
            <>
              <strong className="seats-address">{first}</strong>
              {others.length === 0 ? null : <span>{others.join(" · ")}</span>}
            </>
          )}
        </dd>
        {pocketCode === null || !showsPoints ? null : (
          <>
            <dt>{say("seat.pocket")}</dt>
            <dd>
              <PocketCode key={pocketCode} code={pocketCode} />
              <span>{say("seat.pocketHelp")}</span>
              <PocketNames isSecure={isSecure} />
            </dd>
          </>
        )}
      </dl>
      <More label={say("seat.help")}>
        <ol className="seats-help">
          <li>{say("seat.help.1")}</li>
          <li>{say("seat.help.2", { port: portOf(first) })}</li>
          <li>{say("seat.help.3")}</li>
        </ol>
      </More>
    </section>
  );
}

function PocketNames({ isSecure }: { isSecure: boolean }) {
  const say = useSay();
  const settings = useSettings();
  const save = useSaveSettings();
  if (!isSecure) return <span>{say("seat.pocketNamesOpen")}</span>;
  return (
    <>
      <Switch
        label={say("seat.pocketNames")}
        value={settings?.pocketNames === true}
        onChange={(pocketNames) => save.mutate({ pocketNames })}
      />
      <Problem error={save.error} />
    </>
  );
}

/** The port in an address for devices. */
const portOf = (address: string | undefined): string => /:(\d+)$/.exec(address ?? "")?.[1] ?? "";
