import { Link, useParams, useSearchParams } from "react-router";
import type { Slip } from "../../../shared/api/seats.ts";
import { printedCode } from "../../../shared/seats/code.ts";
import { useGroups, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { intoSheets } from "../paper.ts";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import { QrDrawing } from "./qr-drawing.tsx";
import "./seat-slips.css";

/** Slips that fit a sheet, A4 or Letter. */
const onSheet = 8;

/** A slip a seat: address, QR and code, and no name. The codes are made here and kept nowhere else. */
export function SeatSlipsPage() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const [search] = useSearchParams();
  const only = search.get("seat");
  const groups = useGroups();
  const group = groups.data?.find(({ id }) => id === groupId);
  const make = useTell((api) =>
    api.seats.makeSlips({ groupId, seatIds: only === null ? null : [only] }),
  );
  if (group === undefined) {
    return <PrintGap error={groups.error} isMissing={groups.data !== undefined} />;
  }
  const title = say("seat.slipsTitle", { group: group.name });
  // Before they are made there is no sheet, so that none is printed empty.
  const sheets = make.data === undefined ? [] : intoSheets(make.data.slips, onSheet);
  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}/seats`}>{say("seat.title")}</Link>}
      fileName={title}
      lead={say("seat.slipsLead")}
      notes={
        <Notice>
          <p>{say("seat.slipsNote")}</p>
          <Button
            look={make.data === undefined ? "main" : "plain"}
            isDisabled={make.isPending}
            onPress={() => make.mutate(undefined)}
          >
            {say(only === null ? "seat.slipsMake" : "seat.slipsMakeOne")}
          </Button>
          <Problem error={make.error} />
          {make.data?.address === "" ? <p>{say("seat.noAddress")}</p> : null}
        </Notice>
      }
    >
      {sheets.map((slips, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
        <Sheet key={at} number={at + 1} count={sheets.length} kind="text">
          <ul className="seat-slips">
            {slips.map((slip) => (
              <SeatSlip key={slip.number} slip={slip} address={make.data?.address ?? ""} />
            ))}
          </ul>
        </Sheet>
      ))}
    </PrintPage>
  );
}

function SeatSlip({ slip, address }: { slip: Slip; address: string }) {
  const say = useSay();
  const { number, code } = slip;
  return (
    <li className="seat-slip">
      <h2>{say("seat.slip.seat", { number })}</h2>
      {address === "" ? null : (
        <QrDrawing text={`${address}/#${code}`} label={say("seat.slip.qr", { number })} />
      )}
      <p>
        {say("seat.slip.scan")}
        <br />
        <strong>{address}</strong>
      </p>
      <p>
        {say("seat.slip.code")}
        <br />
        <strong className="seat-slip-code">{printedCode(code)}</strong>
      </p>
    </li>
  );
}
