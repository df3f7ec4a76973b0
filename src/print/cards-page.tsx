import { Link, useParams } from "react-router";
import type { Plan } from "../../shared/api/plans.ts";
import type { SessionListItem } from "../../shared/api/sessions.ts";
import { sessionCode } from "../../shared/record/session-code.ts";
import type { Group, Student } from "../../shared/roster/roster.ts";
import { checkPlan } from "../../shared/schedule/check-plan.ts";
import { mostLikelyCues } from "../../shared/schedule/most-likely-cues.ts";
import { useGroups, usePlans, useSessions } from "../api/queries.ts";
import { useWilling } from "../class/home/use-agreed.ts";
import { pictureNamed } from "../class/pictures/picture-names.ts";
import { Notice } from "../parts/notice.tsx";
import { useFormats, useSay } from "../text/text.tsx";
import { Card, type PrintedCard } from "./card.tsx";
import { CardChoices, CardNotes } from "./card-choices.tsx";
import { type CardLayout, layOutCards } from "./card-layout.ts";
import { useCardOptions } from "./card-options.ts";
import { intoSheets } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { Sheet } from "./sheet.tsx";
import { usePaper } from "./use-paper.ts";

/** Self-record cards of a group, for one plan. */
export function CardsPage() {
  const { groupId = "", planId = "" } = useParams();
  const groups = useGroups();
  const plans = usePlans(groupId);
  const students = useWilling(groupId, "cued");
  const group = groups.data?.find(({ id }) => id === groupId);
  const plan = plans.data?.find(({ id }) => id === planId);
  const error = groups.error ?? plans.error ?? students.error;
  if (group === undefined || plan === undefined || students.students === undefined) {
    const isKnown = groups.data !== undefined && plans.data !== undefined;
    return <PrintGap error={error} isMissing={isKnown && students.students !== undefined} />;
  }
  return <Cards group={group} plan={plan} students={students.students} />;
}

/** As wide as the least place to write in. */
const room = "____";

/** Enough to hold every session of a day. */
const sessionsAsked = 30;

/** Whether a session under this plan was held on this day: it takes a place in the day's order. */
const isHeld = (session: SessionListItem, planName: string, day: string | null): boolean =>
  session.kind === "seatwork" &&
  session.planName === planName &&
  session.day === day &&
  session.cuesDelivered > 0;

interface CardsProps {
  group: Group;
  plan: Plan;
  students: readonly Student[];
}

function Cards({ group, plan, students }: CardsProps) {
  const say = useSay();
  const formats = useFormats();
  const { paper } = usePaper();
  const options = useCardOptions();
  const { perPage, look, day } = options;
  const sessions = useSessions(group.id, sessionsAsked).data ?? [];
  // Until the teacher says otherwise, cards are for the next session of their day.
  const place = options.place ?? 1 + sessions.filter((each) => isHeld(each, plan.name, day)).length;
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
    : students.map((student) => personOf(student, group));
  const code = sessionCode({ groupId: group.id, planName: plan.name, day, place });
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
    foot: [
      say("print.card.goal", { write: room }),
      say("print.card.got", { write: room }),
      // Several cards for one student are a page each, where there is room for more.
      say("print.card.code", { code }),
    ],
  });
  const stack = {
    day: day === null ? null : formats.day(day),
    code,
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
      options={<CardChoices options={options} place={place} />}
      notes={<CardNotes wished={perPage} layout={layout} boxes={boxes} code={stack.code} />}
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
const personOf = (student: Student, group: Group): Person => ({
  name: student.name,
  picture: pictureNamed(student.picture),
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
