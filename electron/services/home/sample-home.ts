import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import { agreedLines } from "../../../shared/home/agreed.ts";
import { type Rating, usualWeights } from "../../../shared/home/home-card.ts";
import type { HomeCard } from "../../../shared/home/kept-card.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { newId } from "../../store/new-id.ts";
import type { Store } from "../../store/store.ts";
import { givenWords } from "../base/given-words.ts";
import type { WallMoment } from "../base/wall-clock.ts";
import { contractMoney } from "../points/contract-days.ts";

/** Places of the invented students who have a home card, and of the one with a contract. */
const withCard = [5, 6] as const;
const withContract = 1;
/** The one whose family wants no points taken. */
const withoutTaking = 6;
/** The card began so many sessions ago, the contract so many. */
const cardSessions = 10;
const contractSessions = 7;
const reviewDays = 14;
/** Chance that a card is lost on the way, and that a lesson was not rated. */
const lostChance = 0.12;
const blankChance = 0.06;
/** One card in so many comes with a line of what went well. */
const wordsEvery = 3;

/**
 * What was agreed about the invented class, two home cards that go home and come back, and one contract.
 *
 * @param days days of its seatwork, oldest first
 */
export function addSampleHome(
  store: Store,
  groupId: string,
  days: readonly string[],
  when: WallMoment,
) {
  const words = givenWords[store.settings.get().language];
  const ids = store.students.list(groupId, false).map(({ id }) => id);
  const [firstDay] = days;
  if (firstDay === undefined) return;
  ids.forEach((studentId, at) => {
    for (const line of agreedLines) {
      const answer = line === "taken" && at === withoutTaking ? "no" : "yes";
      const said = { line, answer, day: firstDay, who: words.sampleFamily } as const;
      store.agreed.add(studentId, said, when.wallMs);
    }
    const reviewOn = dayText(dayNumber(days.at(-1) ?? firstDay) + 10 * reviewDays);
    store.agreed.changePaper(studentId, { reviewOn });
  });
  for (const at of withCard) {
    const studentId = ids[at];
    if (studentId !== undefined) addCards(store, studentId, at, days.slice(-cardSessions), when);
  }
  const studentId = ids[withContract];
  if (studentId !== undefined) addContract(store, studentId, days.slice(-contractSessions), when);
}

function addCards(
  store: Store,
  studentId: string,
  at: number,
  days: readonly string[],
  { wallMs }: WallMoment,
): void {
  const words = givenWords[store.settings.get().language];
  const draw = randomStream("sample", `home card ${at}`);
  const card: HomeCard = {
    goals: [...words.sampleGoals],
    periods: [...words.sampleLessons],
    scale: { kind: "scale", goodEnd: "five", weights: [...usualWeights] },
    homework: true,
    selfRecord: true,
  };
  const [fromDay] = days;
  if (fromDay === undefined) return;
  const cardId = newId(wallMs);
  store.homeCards.addVersion({ id: cardId, studentId, fromDay, card }, wallMs);
  // The newest day's card is still to be typed in.
  for (const [place, day] of days.slice(0, -1).entries()) {
    if (draw() < lostChance) continue;
    const ratings = card.periods.flatMap(() =>
      card.goals.map((): Rating | null => (draw() < blankChance ? null : ratingOf(draw()))),
    );
    const wentWell = place % wordsEvery === 0 ? words.sampleWentWell : "";
    const typed = { cardId, day, ratings, homework: "", wentWell, tomorrow: "" };
    store.homeCards.addDay(studentId, typed, wallMs);
  }
}

/** Mostly good: a card that is met on most days. */
function ratingOf(chance: number): Rating {
  if (chance < 0.4) return 4;
  if (chance < 0.7) return 3;
  return chance < 0.9 ? 2 : 1;
}

function addContract(
  store: Store,
  studentId: string,
  days: readonly string[],
  when: WallMoment,
): void {
  const words = givenWords[store.settings.get().language];
  const [fromDay] = days;
  const lastClosed = days.at(-2);
  if (fromDay === undefined || lastClosed === undefined) return;
  const contract = {
    id: newId(when.wallMs),
    studentId,
    terms: {
      wording: "young",
      goal: { kind: "rate", rate: 0.8, measure: "self" },
      points: 2,
      earns: words.sampleEarns,
      cost: 0,
      checkedBy: words.sampleAdult,
    },
    fromDay,
    reviewOn: dayText(dayNumber(fromDay) + reviewDays),
    signedOn: fromDay,
    endedOn: null,
  } as const;
  store.contracts.add(contract, when.wallMs);
  contractMoney(store).closeUpTo(contract, lastClosed, when);
}
