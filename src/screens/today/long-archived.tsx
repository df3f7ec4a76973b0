import { Link } from "react-router";
import { useAsk } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";
import { WaitingItem } from "./waiting-item.tsx";

/** Groups a year in the archive are asked about; put aside, they are asked about again the year after. */
export function LongArchived() {
  const say = useSay();
  const groups = useAsk("groups", ["long-archived"], (api) => api.groups.longArchived()).data ?? [];
  return groups.map(({ id, name, years }) => {
    const words = say("today.longArchived", { group: name, years });
    return (
      <WaitingItem key={id} what={`archive ${id} ${years}`} named={words}>
        {words} <Link to="/groups">{say("today.toArchive")}</Link>
      </WaitingItem>
    );
  });
}
