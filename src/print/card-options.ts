import { today } from "../text/device-time.ts";
import { cardsPerPage } from "./card-layout.ts";
import { useChoice, useOption } from "./use-option.ts";

export const looks = ["words", "symbols"] as const;
export const prints = ["normal", "large"] as const;
export const holders = ["students", "blank"] as const;

/** On a first opening: four a page is large enough to write in and saves paper. */
const usualPerPage = 4;

/** What the teacher chose about the cards; all of it stands in the address. */
export function useCardOptions() {
  const [perPage, setPerPage] = useChoice("cards", cardsPerPage.map(String), String(usualPerPage));
  const [look, setLook] = useChoice("look", looks, "words");
  const [print, setPrint] = useChoice("print", prints, "normal");
  const [who, setWho] = useChoice("for", holders, "students");
  const [day, setDay] = useOption("day", today());
  const [place, setPlace] = useOption("session", "");
  return {
    perPage: cardsPerPage.find((count) => String(count) === perPage) ?? usualPerPage,
    setPerPage,
    look,
    setLook,
    print,
    setPrint,
    who,
    setWho,
    /** Null when the date is left open. */
    day: /^\d{4}-\d{2}-\d{2}$/.test(day) ? day : null,
    setDay,
    /** Which session of the day the cards are for, from 1; null until the teacher says so. */
    place: /^[1-9]$/.test(place) ? Number(place) : null,
    setPlace,
    leaveDayOpen: () => setDay("open"),
  } as const;
}

export type CardOptions = ReturnType<typeof useCardOptions>;
