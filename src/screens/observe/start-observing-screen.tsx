import { useState } from "react";
import { CheckboxGroup, Label } from "react-aria-components";
import { Link, useParams, useSearchParams } from "react-router";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import { greatestCountWithChance } from "../../../shared/schedule/cue-count.ts";
import {
  type LookInterval,
  lookIntervals,
  planForKind,
} from "../../../shared/session/kind-plan.ts";
import { mostObserved } from "../../../shared/session/observation-rotation.ts";
import { useGroups, useOpenSession, usePlanChoice } from "../../api/queries.ts";
import { useWilling } from "../../class/home/use-agreed.ts";
import { useStartSession } from "../../live/start-session.ts";
import { Button } from "../../parts/button.tsx";
import { CheckBox } from "../../parts/check-box.tsx";
import { Choices, Pick, TextField } from "../../parts/field.tsx";
import { More } from "../../parts/more.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { sheetInAddress, sheetOptions } from "../../parts/sheet-options.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import "./observe.css";

/** Below so many looks a student in one session, a word on more sessions or fewer students; common practice, no source. */
const fewLooks = 4;

/** Before an observation: what it is for, whom to watch, under which plan's times. */
export function StartObservingScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const students = useWilling(groupId, "observed");
  const group = groups.data?.find(({ id }) => id === groupId);
  if (groups.data === undefined || students.students === undefined) {
    return <Page title={say("observe.title")}>{say("wait")}</Page>;
  }
  if (group === undefined) return <Page title={say("error.missing")}>{null}</Page>;
  return (
    <Page
      title={say("observe.title")}
      back={<Link to="/">{say("nav.today")}</Link>}
      lead={say("observe.lead", { group: group.name })}
    >
      {students.students.length === 0 && students.out === 0 ? (
        <p>
          {say("observe.nobody")} <Link to={`/groups/${group.id}`}>{group.name}</Link>
        </p>
      ) : (
        <StartForm group={group} students={students.students} />
      )}
      {students.out > 0 ? <p>{say("agreed.notObserved", { count: students.out })}</p> : null}
    </Page>
  );
}

function StartForm({ group, students }: { group: Group; students: readonly Student[] }) {
  const say = useSay();
  const formats = useFormats();
  const starting = useStartSession();
  const open = useOpenSession();
  const sheet = useSheetInAddress(students);
  const [kind, setKind] = useState<"baseline" | "probe">(sheet.kind);
  const [planId, setPlanId] = useState<string | null>(sheet.planId);
  const [chosen, setChosen] = useState(sheet.studentIds);
  const [pace, setPace] = useState<LookInterval>(sheet.pace);
  const [seed, setSeed] = useState(sheet.seed);
  const { plans, plan } = usePlanChoice(group.id, planId);
  if (plan === undefined) return null;
  // As many or more in half of all sessions.
  const settings = planForKind(plan.settings, kind, pace);
  const looks = greatestCountWithChance(settings, 0.5);
  const each = looks / Math.max(1, chosen.length);
  const isPossible = chosen.length > 0 && chosen.length <= mostObserved;

  const begin = () =>
    starting.start({
      plan,
      kind,
      seed: seed.trim() === "" ? undefined : seed.trim(),
      observing: { studentIds: chosen, lookEverySeconds: pace },
    });

  return (
    <div className="observe-start">
      <Choices
        label={say("observe.kind")}
        inRow
        value={kind}
        onChange={setKind}
        choices={[
          {
            value: "baseline",
            label: say("observe.kind.baseline"),
            help: say("observe.kind.baselineHelp"),
          },
          { value: "probe", label: say("observe.kind.probe"), help: say("observe.kind.probeHelp") },
        ]}
      />
      {plans.length > 1 ? (
        <Pick
          label={say("today.plan")}
          value={plan.id}
          onChange={setPlanId}
          choices={plans.map(({ id, name }) => ({ value: id, label: name }))}
        />
      ) : null}
      <Whom students={students} chosen={chosen} onChange={setChosen} />
      <Choices
        label={say("observe.pace")}
        help={say("observe.paceHelp")}
        value={String(pace)}
        onChange={(text) => setPace(lookIntervals.find((one) => String(one) === text) ?? pace)}
        choices={lookIntervals.map((one) => ({
          value: String(one),
          label: say("observe.paceOf", { seconds: one }),
        }))}
        inRow
      />
      <OwnSheet
        isOpenAtFirst={sheet.seed !== ""}
        seed={seed}
        onSeed={setSeed}
        printed={`/print/observation/${group.id}/${plan.id}?${sheetOptions({
          seed: seed.trim(),
          studentIds: chosen,
          pace,
        })}`}
      />
      {sheet.missing > 0 ? (
        <Notice kind="caution">{say("observe.sheetMissing", { count: sheet.missing })}</Notice>
      ) : null}
      <p role="status">
        {isPossible
          ? say("observe.expected", {
              looks: formats.number(looks),
              each: formats.number(each, Number.isInteger(each) ? 0 : 1),
              minutes: formats.number(settings.lengthSeconds / 60),
              few: each < fewLooks ? "yes" : "no",
            })
          : say("observe.chooseSomeone")}
      </p>
      <div>
        <Button
          look="main"
          size="large"
          isDisabled={!isPossible || !starting.mayStart}
          onPress={begin}
        >
          {say("observe.start")}
        </Button>
      </div>
      {open === null ? null : <p>{say("refused.session-running")}</p>}
      <Problem error={starting.error} />
      <Section title={say("observe.how")}>
        <p>{say("observe.howHelp")}</p>
        <p>{say("observe.howSecond")}</p>
      </Section>
    </div>
  );
}

/** Who is watched; no more than one can watch. */
function Whom(props: {
  students: readonly Student[];
  chosen: string[];
  onChange: (studentIds: string[]) => void;
}) {
  const say = useSay();
  const { students, chosen, onChange } = props;
  return (
    <CheckboxGroup value={chosen} onChange={onChange} className="field">
      <Label className="field-label">{say("observe.whom", { most: mostObserved })}</Label>
      <div className="observe-students">
        {students.map(({ id, name }) => (
          <CheckBox
            key={id}
            value={id}
            isDisabled={!chosen.includes(id) && chosen.length >= mostObserved}
          >
            {name}
          </CheckBox>
        ))}
      </div>
    </CheckboxGroup>
  );
}

/** For whoever has a printed sheet in hand, or wants one of the same times. */
function OwnSheet(props: {
  isOpenAtFirst: boolean;
  seed: string;
  onSeed: (seed: string) => void;
  /** Where the sheet is printed. */
  printed: string;
}) {
  const say = useSay();
  return (
    <More
      className="observe-sheet"
      isOpenAtFirst={props.isOpenAtFirst}
      label={say("observe.haveSheet")}
    >
      <TextField
        label={say("seed.seed")}
        help={say("observe.sheetSeedHelp")}
        value={props.seed}
        onChange={props.onSeed}
        maxLength={80}
      />
      <Link to={props.printed}>{say("observe.printSheet")}</Link>
    </More>
  );
}

/** What the address says of a printed sheet, as it was when the screen opened; the usual where it says nothing. */
function useSheetInAddress(students: readonly Student[]) {
  const [params] = useSearchParams();
  const [sheet] = useState(() =>
    sheetInAddress(
      params,
      students.map(({ id }) => id),
    ),
  );
  return sheet;
}
