import { Link, useParams } from "react-router";
import type { Plan } from "../../shared/api/plans.ts";
import type { Group, Student } from "../../shared/api/roster.ts";
import { checkPlan } from "../../shared/plan/check-plan.ts";
import { sessionCode } from "../../shared/record/session-code.ts";
import { mostLikelyCues } from "../../shared/schedule/most-likely-cues.ts";
import { useGroups, usePlans, useStudents } from "../api/queries.ts";
import { Choices, Switch } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import { pictureNamed } from "../pictures/picture-names.ts";
import { DayField } from "../screens/progress/day-field.tsx";
import { type Say, useFormats, useSay } from "../text/text.tsx";
import { Card, type PrintedCard } from "./card.tsx";
import { type CardLayout, type CardLook, cardsPerPage, layOutCards } from "./card-layout.ts";
import { today } from "./local-day.ts";
import { intoSheets } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { Sheet } from "./sheet.tsx";
import { useChoice, useOption } from "./use-option.ts";
import { usePaper } from "./use-paper.ts";

/** Self-record cards of a group, for one plan. */
export function CardsPage() {
  const { groupId = "", planId = "" } = useParams();
  const groups = useGroups();
  const plans = usePlans(groupId);
  const students = useStudents(groupId);
  const group = groups.data?.find(({ id }) => id === groupId);
  const plan = plans.data?.find(({ id }) => id === planId);
  const error = groups.error ?? plans.error ?? students.error;
  if (group === undefined || plan === undefined || students.data === undefined) {
    const isKnown = groups.data !== undefined && plans.data !== undefined;
    return <PrintGap error={error} isMissing={isKnown && students.data !== undefined} />;
  }
  return <Cards group={group} plan={plan} students={students.data} />;
}

const counts = cardsPerPage.map(String);
/** On a first opening: four a page is large enough to write in and saves paper. */
const usualCount = "4";

function useCardOptions() {
  const [perPage, setPerPage] = useChoice("cards", counts, usualCount);
  const [look, setLook] = useChoice("look", ["words", "symbols"], "words");
  const [print, setPrint] = useChoice("print", ["normal", "large"], "normal");
  const [who, setWho] = useChoice("for", ["students", "blank"], "students");
  const [day, setDay] = useOption("day", today());
  return {
    perPage: cardsPerPage.find((count) => String(count) === perPage) ?? 4,
    counts: { value: perPage, set: setPerPage },
    look,
    setLook,
    print,
    setPrint,
    who,
    setWho,
    /** Null when the date is left open. */
    day: /^\d{4}-\d{2}-\d{2}$/.test(day) ? day : null,
    setDay,
  } as const;
}
type CardOptions = ReturnType<typeof useCardOptions>;

function Cards({
  group,
  plan,
  students,
}: {
  group: Group;
  plan: Plan;
  students: readonly Student[];
}) {
  const say = useSay();
  const formats = useFormats();
  const { paper } = usePaper();
  const options = useCardOptions();
  const { perPage, look, day } = options;
  const canRun = checkPlan(plan.settings).length === 0;
  const back = <Link to={`/groups/${group.id}`}>{group.name}</Link>;
  const title = say("print.cards.title", { group: group.name });
  if (!canRun || paper === undefined) {
    return (
      <PrintPage title={title} back={back} fileName={title}>
        <Notice kind="caution">{say("refused.plan-impossible")}</Notice>
      </PrintPage>
    );
  }

  const isBlank = options.who === "blank" || students.length === 0;
  const boxes = Math.max(1, mostLikelyCues(plan.settings));
  const people: Person[] = isBlank
    ? [{ name: "", picture: null, target: group.target }]
    : students.map((student) => personOf(student, group, look));
  const layout = layOutCards({
    paper,
    perPage,
    large: options.print === "large",
    look,
    boxes,
    names: people.map(({ name }) => name),
    pictures: people.some(({ picture }) => picture !== null),
    targets: people.map(({ target }) => target),
    // The space between the two counts too.
    legend: `${say("print.card.yes")}____${say("print.card.no")}`,
  });
  const stack = {
    day: day === null ? null : formats.day(day),
    code: sessionCode({ groupId: group.id, planName: plan.name, day }),
    look,
    layout,
  };
  // A blank card fills its page.
  const holders = isBlank ? Array.from({ length: layout.perPage }, () => people).flat() : people;
  const cards = holders.flatMap((person) =>
    partsOf(boxes, layout).map((part): PrintedCard => ({ ...stack, ...person, ...part })),
  );
  const sheets = intoSheets(cards, layout.perPage);

  return (
    <PrintPage
      title={title}
      back={back}
      fileName={day === null ? title : `${title} ${day}`}
      lead={say("print.cards.lead", { plan: plan.name, boxes })}
      options={<CardChoices options={options} />}
      notes={
        <CardNotes say={say} options={options} layout={layout} boxes={boxes} code={stack.code} />
      }
    >
      {sheets.map((onSheet, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
        <Sheet key={index} number={index + 1} count={sheets.length} kind="cards">
          <div
            className="cards-sheet"
            style={{
              gridTemplateColumns: `repeat(${layout.columns}, ${layout.card.width}mm)`,
              gridAutoRows: `${layout.card.height}mm`,
            }}
          >
            {onSheet.map((card, place) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: blank cards have nothing else
              <Card key={place} card={card} />
            ))}
          </div>
        </Sheet>
      ))}
    </PrintPage>
  );
}

type Person = Pick<PrintedCard, "name" | "picture" | "target">;

/** Who has no own target works by the group's; a picture helps those who do not read yet. */
const personOf = (student: Student, group: Group, look: CardLook): Person => ({
  name: student.name,
  picture: look === "symbols" ? pictureNamed(student.picture) : null,
  target: student.target === "" ? group.target : student.target,
});

/** The boxes of each of a student's cards. */
function partsOf(boxes: number, { cardsEach, boxesPerCard }: CardLayout) {
  return Array.from({ length: cardsEach }, (_, index) => ({
    firstBox: index * boxesPerCard + 1,
    lastBox: Math.min(boxes, (index + 1) * boxesPerCard),
    part: index + 1,
  }));
}

function CardChoices({ options }: { options: CardOptions }) {
  const say = useSay();
  const two = <Value extends string>(
    id: "look" | "print" | "for",
    values: readonly [Value, Value],
    labels: readonly [string, string],
    value: Value,
    onChange: (value: Value) => void,
  ) => (
    <Choices
      label={say(`print.cards.${id}`)}
      inRow
      value={value}
      choices={values.map((one, at) => ({ value: one, label: labels[at] ?? one }))}
      onChange={onChange}
    />
  );
  return (
    <>
      <Choices
        label={say("print.cards.perPage")}
        inRow
        value={options.counts.value}
        choices={counts.map((value) => ({ value, label: value }))}
        onChange={options.counts.set}
      />
      {two(
        "look",
        ["words", "symbols"],
        [say("print.cards.look.words"), say("print.cards.look.symbols")],
        options.look,
        options.setLook,
      )}
      {two(
        "print",
        ["normal", "large"],
        [say("print.cards.print.normal"), say("print.cards.print.large")],
        options.print,
        options.setPrint,
      )}
      {two(
        "for",
        ["students", "blank"],
        [say("print.cards.for.students"), say("print.cards.for.blank")],
        options.who,
        options.setWho,
      )}
      <div className="print-day">
        <Switch
          label={say("print.cards.withDate")}
          value={options.day !== null}
          onChange={(on) => options.setDay(on ? today() : "open")}
        />
        {options.day === null ? null : (
          <DayField label={say("print.cards.date")} value={options.day} onChange={options.setDay} />
        )}
      </div>
    </>
  );
}

function CardNotes(props: {
  say: Say;
  options: CardOptions;
  layout: CardLayout;
  boxes: number;
  code: string;
}) {
  const { say, options, layout, boxes, code } = props;
  return (
    <>
      {layout.perPage < options.perPage ? (
        <Notice title={say("print.cards.fewer", { wished: options.perPage, used: layout.perPage })}>
          {say("print.cards.fewerWhy", { boxes })}
        </Notice>
      ) : null}
      {layout.cardsEach > 1 ? (
        <Notice>{say("print.cards.several", { cards: layout.cardsEach, boxes })}</Notice>
      ) : null}
      <p className="print-lead">{say("print.cards.code", { code })}</p>
    </>
  );
}
