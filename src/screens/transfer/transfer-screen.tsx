import { Link, useParams } from "react-router";
import { useGroups } from "../../api/queries.ts";
import { Page, Section } from "../../parts/page.tsx";
import { useSay } from "../../text/text.tsx";
import { BringIn } from "./bring-in.tsx";
import { ChimeRecording } from "./chime-recording.tsx";
import { PastImports } from "./past-imports.tsx";
import { TakeOut } from "./take-out.tsx";
import "./transfer.css";

/** A group's records going out and coming in, and its sessions as sound files. */
export function TransferScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const group = groups.data?.find(({ id }) => id === groupId);
  if (groups.data === undefined) return <Page title={say("transfer.title")}>{say("wait")}</Page>;
  if (group === undefined) return <Page title={say("error.missing")}>{null}</Page>;
  return (
    <Page
      title={say("transfer.title")}
      lead={say("transfer.lead")}
      back={<Link to={`/groups/${group.id}`}>{group.name}</Link>}
    >
      <Section title={say("transfer.out")}>
        <TakeOut group={group} />
      </Section>
      <Section title={say("transfer.in")}>
        <BringIn groupId={group.id} />
        <PastImports groupId={group.id} />
      </Section>
      <Section title={say("transfer.sound")}>
        <ChimeRecording groupId={group.id} />
      </Section>
    </Page>
  );
}
