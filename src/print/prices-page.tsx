import { Link, useParams } from "react-router";
import { useGroups } from "../api/queries.ts";
import { Picture } from "../class/pictures/picture.tsx";
import { pictureNamed } from "../class/pictures/picture-names.ts";
import { usePoints } from "../class/points/use-points.ts";
import { useFormats, useSay } from "../text/text.tsx";
import { intoSheets } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { Sheet } from "./sheet.tsx";
import "./points-paper.css";

/** Rows that fit a sheet, A4 or Letter, below its heading. */
const onSheet = 12;

/** What points buy, for the wall: picture, name and price. */
export function PricesPage() {
  const say = useSay();
  const formats = useFormats();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const group = groups.data?.find(({ id }) => id === groupId);
  const points = usePoints(groupId);
  if (group === undefined || points === undefined || !points.on) {
    return <PrintGap error={groups.error} isMissing={groups.data !== undefined} />;
  }
  const title = say("points.pricesTitle", { group: group.name });
  const sheets = intoSheets(points.privileges, onSheet);
  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}/points`}>{say("points.title")}</Link>}
      fileName={title}
      notes={points.privileges.length === 0 ? <p>{say("points.noPrivileges")}</p> : undefined}
    >
      {sheets.map((privileges, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
        <Sheet key={at} number={at + 1} count={sheets.length} kind="text">
          <h2 className="points-paper-title">{say("points.pricesHeading")}</h2>
          {points.spendUntil === null ? null : (
            <p>{say("points.spending", { day: formats.day(points.spendUntil) })}</p>
          )}
          <ul className="points-paper-prices">
            {privileges.map(({ id, name, picture, price, minutes }) => {
              const drawn = pictureNamed(picture);
              return (
                <li key={id}>
                  <span className="points-paper-picture">
                    {drawn === null ? null : <Picture name={drawn} />}
                  </span>
                  <span className="points-paper-name">
                    {name}
                    {minutes === null ? null : (
                      <small> {say("points.minutesLong", { minutes })}</small>
                    )}
                  </span>
                  <strong className="points-paper-price">{price}</strong>
                </li>
              );
            })}
          </ul>
        </Sheet>
      ))}
    </PrintPage>
  );
}
