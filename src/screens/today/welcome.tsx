import { useState } from "react";
import { useNavigate } from "react-router";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** The first page of an empty notebook: an own group, or the invented class to look around in. */
export function Welcome() {
  const say = useSay();
  const navigate = useNavigate();
  const [name, setName] = useState("");
  const create = useTell((api, groupName: string) =>
    api.groups.create({ name: groupName, target: say("groups.firstTarget") }),
  );
  const addSample = useTell((api) => api.app.addSample());
  const begin = () =>
    create.mutate(name.trim(), { onSuccess: (group) => navigate(`/groups/${group.id}`) });
  return (
    <Page title={say("welcome.title")} lead={say("welcome.lead")}>
      <div className="today-welcome">
        <Section title={say("welcome.own")}>
          <p>{say("welcome.ownHelp")}</p>
          <form
            className="today-form"
            onSubmit={(event) => {
              event.preventDefault();
              if (name.trim() !== "") begin();
            }}
          >
            <TextField
              label={say("groups.name")}
              value={name}
              onChange={setName}
              maxLength={60}
              help={say("welcome.nameHelp")}
            />
            <Button type="submit" look="main" isDisabled={name.trim() === "" || create.isPending}>
              {say("welcome.create")}
            </Button>
          </form>
          <Problem error={create.error} />
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
      <p className="today-caution">{say("today.caution")}</p>
    </Page>
  );
}
