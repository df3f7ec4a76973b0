import { useState } from "react";
import { Link, useParams } from "react-router";
import type { PracticeExamples } from "../../../shared/roster/practice-examples.ts";
import type { Group } from "../../../shared/roster/roster.ts";
import { useAsk, useGroups, useOpenSession, usePlanChoice, useTell } from "../../api/queries.ts";
import { type Around, useStartSession } from "../../live/start-session.ts";
import { useCheckedStart } from "../../live/use-checked-start.tsx";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { examplesIn, examplesProblem, hasExamples, mostExamples } from "./examples-in.ts";
import "./practice.css";

/** Before the first real session: what working is and what it is not, then five minutes of dense cues. */
export function PracticeScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const group = groups.data?.find(({ id }) => id === groupId);
  const examples = useAsk("program", ["examples", groupId], (api) =>
    api.practice.examples({ groupId }),
  );
  if (groups.data === undefined || (examples.data === undefined && examples.error === null)) {
    return <Page title={say("practice.title")}>{say("wait")}</Page>;
  }
  if (group === undefined) return <Page title={say("error.missing")}>{null}</Page>;
  return (
    <Page
      title={say("practice.title")}
      back={<Link to="/">{say("nav.today")}</Link>}
      lead={say("practice.lead", { group: group.name })}
    >
      <Problem error={examples.error} />
      {examples.data === undefined ? null : (
        <Prepare key={group.id} group={group} saved={examples.data} />
      )}
    </Page>
  );
}

function Prepare({ group, saved }: { group: Group; saved: PracticeExamples }) {
  const say = useSay();
  const starting = useStartSession();
  const open = useOpenSession();
  const isNew = !hasExamples(saved);
  const [working, setWorking] = useState(
    isNew ? say("practice.firstWorking") : saved.working.join("\n"),
  );
  const [notWorking, setNotWorking] = useState(
    isNew ? say("practice.firstNotWorking") : saved.notWorking.join("\n"),
  );
  const examples = { working: examplesIn(working), notWorking: examplesIn(notWorking) };
  const save = useTell((api) => api.practice.saveExamples({ groupId: group.id, examples }));
  const problems = [examplesProblem(examples.working), examplesProblem(examples.notWorking)];
  const isBad = problems.some((problem) => problem !== null);
  const word = (problem: ReturnType<typeof examplesProblem> | undefined) =>
    problem === null || problem === undefined
      ? undefined
      : say(`practice.${problem}`, { most: mostExamples });
  const { plan } = usePlanChoice(group.id, null);
  const begin = (around: Around = {}) => {
    if (plan === undefined) return;
    starting.start({
      plan,
      kind: "practice",
      // The words are saved before they are shown.
      first: async (api) => {
        await around.first?.(api);
        await api.practice.saveExamples({ groupId: group.id, examples });
      },
      after: around.after,
    });
  };
  const { press, check } = useCheckedStart(plan, begin, "practice");
  const isEmpty = group.studentCount === 0;

  return (
    <div className="practice">
      <div className="practice-fields">
        <TextField
          label={say("practice.working")}
          help={say("practice.oneALine")}
          value={working}
          onChange={setWorking}
          rows={6}
          problem={word(problems[0])}
        />
        <TextField
          label={say("practice.notWorkingLabel")}
          help={say("practice.oneALine")}
          value={notWorking}
          onChange={setNotWorking}
          rows={6}
          problem={word(problems[1])}
        />
      </div>
      <Notice title={say("practice.notKept")}>{say("practice.notKeptHelp")}</Notice>
      <div className="practice-start">
        <Button
          look="main"
          size="large"
          isDisabled={
            plan === undefined || isBad || isEmpty || save.isPending || !starting.mayStart
          }
          onPress={press}
        >
          {say("practice.start")}
        </Button>
        <Button isDisabled={isBad || save.isPending} onPress={() => save.mutate(undefined)}>
          {say("practice.save")}
        </Button>
        <span role="status">{save.isSuccess ? say("practice.saved") : ""}</span>
      </div>
      {open === null ? null : <p>{say("refused.session-running")}</p>}
      {isEmpty ? <p>{say("today.emptyGroup")}</p> : null}
      <Problem error={starting.error ?? save.error} />
      {check}
      <p className="today-caution">{say("practice.howMany")}</p>
    </div>
  );
}
