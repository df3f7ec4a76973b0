import { Link } from "react-router";
import { type AgreedPage, standsFor } from "../../../shared/home/agreed.ts";
import { printedRating, ratings, usualWeights } from "../../../shared/home/home-card.ts";
import {
  cellCount,
  type HomeCard,
  type HomeCardVersion,
  homeCardSchema,
  mostGoals,
  mostPeriods,
} from "../../../shared/home/kept-card.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useAsk, useTell } from "../../api/queries.ts";
import { usePoints } from "../../class/points/use-points.ts";
import { Button } from "../../parts/button.tsx";
import { Choices, NumberField, Switch, TextField } from "../../parts/field.tsx";
import { DayField } from "../../parts/moment-field.tsx";
import { More } from "../../parts/more.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { SavedElsewhere } from "../../parts/sheet/saved-elsewhere.tsx";
import { useKeptForm } from "../../parts/sheet/use-kept-form.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { StillHere } from "./still-here.tsx";
import { StudentPage } from "./student-page.tsx";

/** One student's home card: what it asks, from which day on, and the switch that stops it. */
export function HomeCardScreen() {
  const say = useSay();
  return (
    <StudentPage>
      {({ student, agreed, today, back }) => (
        <Page
          title={say("homeCard.title", { name: student.name })}
          back={back}
          lead={say("homeCard.lead", { name: student.name })}
          actions={<Papers student={student} agreed={agreed} today={today} />}
        >
          <Versions student={student} today={today} />
          <Stop student={student} agreed={agreed} />
          <p className="home-help">{say("homeCard.caution")}</p>
        </Page>
      )}
    </StudentPage>
  );
}

const isAgreed = ({ said, cardStopped }: AgreedPage): boolean =>
  !cardStopped && standsFor(said, "home-card")?.answer !== "no";

const useVersions = (studentId: string) =>
  useAsk("home", ["card-versions", studentId], (api) => api.homeCards.versions({ studentId })).data;

/** The ways to paper, where there is a card. */
function Papers(props: { student: Student; agreed: AgreedPage; today: string }) {
  const say = useSay();
  const { student, agreed, today } = props;
  const versions = useVersions(student.id) ?? [];
  if (versions.length === 0 || !isAgreed(agreed)) return null;
  const only = `student=${student.id}`;
  return (
    <>
      <Link to={`/print/home-cards/${student.groupId}?day=${today}&${only}`}>
        {say("homeCard.print")}
      </Link>
      <Link to={`/print/home-week/${student.groupId}?${only}`}>{say("homeCard.week")}</Link>
    </>
  );
}

function Versions({ student, today }: { student: Student; today: string }) {
  const versions = useVersions(student.id);
  const points = usePoints(student.groupId);
  if (versions === undefined || points === undefined) return null;
  // A version to come is the one to go on from.
  const newest = versions.at(-1) ?? null;
  return (
    <CardForm
      student={student}
      current={newest}
      knownIds={versions.map(({ id }) => id)}
      periods={points.periods.map(({ name }) => name)}
      today={today}
    />
  );
}

const scaleKinds = ["five", "one", "yesNo"] as const;
type ScaleKind = (typeof scaleKinds)[number];

const kindOf = ({ scale }: HomeCard): ScaleKind =>
  scale.kind === "yes-no" ? "yesNo" : scale.goodEnd;

/** The lines of a field, tidied. */
const linesOf = (text: string): string[] =>
  text
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "");

/** The card that is offered first: goals to change, and the group's lessons where it has named any. */
function useFirstCard(periods: readonly string[]): HomeCard {
  const say = useSay();
  const usual = [1, 2, 3, 4].map((number) => say("homeCard.usualPeriod", { number }));
  return {
    goals: linesOf(say("homeCard.usualGoals")),
    periods: periods.length === 0 ? usual : periods.slice(0, mostPeriods),
    scale: { kind: "scale", goodEnd: "five", weights: [...usualWeights] },
    homework: true,
    selfRecord: false,
  };
}

const firstFacts = (card: HomeCard, today: string, after: string | null) => ({
  goals: card.goals.join("\n"),
  periods: card.periods.join("\n"),
  kind: kindOf(card),
  weights: card.scale.weights as readonly number[],
  homework: card.homework,
  selfRecord: card.selfRecord,
  fromDay: today,
  /** The version that was the newest when the form began. */
  after,
});

function CardForm(props: {
  student: Student;
  current: HomeCardVersion | null;
  knownIds: readonly string[];
  periods: readonly string[];
  today: string;
}) {
  const say = useSay();
  const formats = useFormats();
  const { student, current, today } = props;
  const firstCard = useFirstCard(props.periods);
  const before = current?.card ?? firstCard;
  const newest = current?.id ?? null;
  const first = firstFacts(before, today, newest);
  const { facts, wasKept, change, begin } = useKeptForm(`${student.id}/home-card`, first);
  const { goals, periods, kind, weights, homework, selfRecord, fromDay, after } = facts;
  const save = useTell((api, card: HomeCard) =>
    api.homeCards.saveVersion({ studentId: student.id, fromDay, card, after }),
  );
  const tooMany = (text: string, most: number) =>
    linesOf(text).length > most || linesOf(text).some((line) => line.length > 60)
      ? say("homeCard.tooMany", { most })
      : undefined;
  const written = homeCardSchema.safeParse({
    // A goal that is written twice is one goal.
    goals: [...new Set(linesOf(goals))],
    periods: linesOf(periods),
    scale: {
      kind: kind === "yesNo" ? "yes-no" : "scale",
      goodEnd: kind === "one" ? "one" : "five",
      weights: [...weights],
    },
    homework,
    selfRecord,
  });
  // What is saved is what the form goes on from.
  const onSuccess = ({ id }: HomeCardVersion) => begin({ ...facts, after: id });
  const press = () => written.success && save.mutate(written.data, { onSuccess });
  const { name } = student;
  // What this window saved itself may not be among the known ones yet.
  const isOld =
    !save.isPending && after !== newest && (after === null || props.knownIds.includes(after));
  return (
    <Section title={say("homeCard.asks")}>
      {current === null ? <p>{say("homeCard.none", { name })}</p> : null}
      {wasKept ? <StillHere onBegin={() => begin(first)} /> : null}
      <div className="home-row">
        <TextField
          label={say("homeCard.goals")}
          help={say("homeCard.goalsHelp", { name, most: mostGoals })}
          value={goals}
          onChange={(goals) => change({ goals })}
          rows={4}
          problem={tooMany(goals, mostGoals)}
        />
        <TextField
          label={say("homeCard.periods")}
          help={say("homeCard.periodsHelp", { most: mostPeriods })}
          value={periods}
          onChange={(periods) => change({ periods })}
          rows={4}
          problem={tooMany(periods, mostPeriods)}
        />
      </div>
      <Choices
        label={say("homeCard.scale")}
        inRow
        value={kind}
        onChange={(kind) => change({ kind })}
        choices={scaleKinds.map((value) => ({ value, label: say(`homeCard.scale.${value}`) }))}
      />
      <div className="home-row">
        <Switch
          label={say("homeCard.homework")}
          value={homework}
          onChange={(homework) => change({ homework })}
        />
        <Switch
          label={say("homeCard.selfRecord", { name })}
          value={selfRecord}
          onChange={(selfRecord) => change({ selfRecord })}
        />
      </div>
      <Weights kind={kind} weights={weights} onChange={(weights) => change({ weights })} />
      <div className="home-row">
        <DayField
          label={say("homeCard.from")}
          help={say("homeCard.fromHelp")}
          value={fromDay}
          onChange={(fromDay) => change({ fromDay })}
        />
        <div className="home-beside">
          <Button look="main" isDisabled={!written.success || save.isPending} onPress={press}>
            {say("homeCard.save")}
          </Button>
        </div>
      </div>
      <p role="status" className="home-said">
        {current === null
          ? null
          : say("homeCard.saved", {
              day: formats.fullDay(current.fromDay),
              cells: cellCount(current.card),
            })}
      </p>
      {isOld ? (
        <SavedElsewhere onTake={() => begin(first)} onKeep={() => change({ after: newest })} />
      ) : (
        <Problem error={save.error} />
      )}
    </Section>
  );
}

/** What each rating is worth at home; of yes and no only these two are used. */
function Weights(props: {
  kind: ScaleKind;
  weights: readonly number[];
  onChange: (weights: readonly number[]) => void;
}) {
  const say = useSay();
  const { kind, weights, onChange } = props;
  const shown = kind === "yesNo" ? ([0, 4] as const) : ratings;
  return (
    <More label={say("homeCard.weights")}>
      <p>{say("homeCard.weightsHelp")}</p>
      <div className="home-row home-weights">
        {shown.map((rating) => (
          <NumberField
            key={rating}
            label={
              kind === "yesNo"
                ? say(rating === 0 ? "homeCard.weightNo" : "homeCard.weightYes")
                : say("homeCard.weight", { figure: printedRating(rating, kind) })
            }
            value={weights[rating] ?? 0}
            minValue={rating < 2 ? -20 : 0}
            maxValue={100}
            onChange={(value) =>
              onChange(weights.map((weight, at) => (at === rating ? value : weight)))
            }
          />
        ))}
      </div>
    </More>
  );
}

/** Stops the card without a trace on paper; for this screen alone. */
function Stop({ student, agreed }: { student: Student; agreed: AgreedPage }) {
  const say = useSay();
  const save = useTell((api, cardStopped: boolean) =>
    api.agreed.savePaper({ studentId: student.id, cardStopped }),
  );
  const saysNo = standsFor(agreed.said, "home-card")?.answer === "no";
  return (
    <div className="home-stop">
      <Switch
        label={say("homeCard.stop")}
        value={agreed.cardStopped}
        onChange={(cardStopped) => save.mutate(cardStopped)}
      />
      <p className="home-help">{say("homeCard.stopHelp")}</p>
      {saysNo ? <p>{say("homeCard.notAgreed", { name: student.name })}</p> : null}
      <Problem error={save.error} />
    </div>
  );
}
