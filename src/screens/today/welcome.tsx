import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { NewGroupForm } from "../../parts/new-group-form.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { KeptGroups } from "./kept-groups.tsx";

/** The first page of an empty notebook: a group to make, or the invented class to look around in. */
export function Welcome() {
  const say = useSay();
  const addSample = useTell((api) => api.app.addSample());
  return (
    <Page title={say("welcome.title")} lead={say("welcome.lead")}>
      <div className="today-welcome">
        <Section title={say("welcome.own")}>
          <p>{say("welcome.ownHelp")}</p>
          <NewGroupForm autoFocus />
        </Section>
        <Section title={say("welcome.sample")}>
          <p>{say("welcome.sampleHelp")}</p>
          <div>
            <Button isDisabled={addSample.isPending} onPress={() => addSample.mutate(undefined)}>
              {say("welcome.addSample")}
            </Button>
          </div>
          <Problem error={addSample.error} />
        </Section>
      </div>
      <ul className="today-waiting">
        <KeptGroups />
      </ul>
      <p className="today-caution">{say("today.caution")}</p>
    </Page>
  );
}
