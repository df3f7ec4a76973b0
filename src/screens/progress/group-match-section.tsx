import { stepOfPace } from "../../../shared/agreement/check-step.ts";
import type { GroupReading } from "../../../shared/reading/group-reading.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { usePlans } from "../../api/queries.ts";
import { Section } from "../../parts/page.tsx";
import { AgreementFigures, AgreementReading } from "../../reading/agreement-reading.tsx";
import { FreeLooks } from "../../reading/free-looks.tsx";
import { useVoice } from "../../words/use-voice.ts";
import { wordStanding } from "../../words/word-standing.ts";

/** Do the group's records match the checks, how often checks come, and for whom they do not become rarer. */
export function GroupMatchSection(props: { counts: GroupCounts; reading: GroupReading }) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { counts, reading } = props;
  const { agreement, recentAgreement, agreementByWeek, standing } = reading;
  const closely = counts.students.filter(({ id }) => reading.checkedClosely.includes(id));
  return (
    <Section title={say("match.group")}>
      <AgreementReading name={counts.group.name} agreement={agreement} recent={recentAgreement} />
      <p>{wordStanding(voice, standing, "automatic")}</p>
      <ChosenPaces groupId={counts.group.id} />
      {closely.length === 0 ? null : (
        <p>{say("checks.closely", { names: formats.list(closely.map(({ name }) => name)) })}</p>
      )}
      <p>{say("checks.pooled")}</p>
      <FreeLooks looks={counts.freeLooks} />
      <AgreementFigures agreement={agreement} weeks={agreementByWeek} />
    </Section>
  );
}

/** Plans in which the teacher set how often checks come. */
function ChosenPaces({ groupId }: { groupId: string }) {
  const { say } = useVoice();
  const plans = usePlans(groupId).data ?? [];
  return plans.map(({ id, name, settings }) => {
    const every = stepOfPace[settings.checkPace];
    return every === null ? null : <p key={id}>{say("checks.chosenIn", { plan: name, every })}</p>;
  });
}
