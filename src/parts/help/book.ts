import type { Language } from "../../text/catalogue.ts";
import enAgreed from "../../text/help/en/agreed.json";
import enCards from "../../text/help/en/cards.json";
import enClass from "../../text/help/en/class.json";
import enContract from "../../text/help/en/contract.json";
import enGroup from "../../text/help/en/group.json";
import enGroups from "../../text/help/en/groups.json";
import enHeld from "../../text/help/en/held.json";
import enHomeCard from "../../text/help/en/homeCard.json";
import enNotebook from "../../text/help/en/notebook.json";
import enObserve from "../../text/help/en/observe.json";
import enPairs from "../../text/help/en/pairs.json";
import enPlan from "../../text/help/en/plan.json";
import enPoints from "../../text/help/en/points.json";
import enPractice from "../../text/help/en/practice.json";
import enPrint from "../../text/help/en/print.json";
import enProgress from "../../text/help/en/progress.json";
import enSeats from "../../text/help/en/seats.json";
import enSession from "../../text/help/en/session.json";
import enSettings from "../../text/help/en/settings.json";
import enStudent from "../../text/help/en/student.json";
import enSure from "../../text/help/en/sure.json";
import enTeams from "../../text/help/en/teams.json";
import enToday from "../../text/help/en/today.json";
import enTransfer from "../../text/help/en/transfer.json";
import esAgreed from "../../text/help/es/agreed.json";
import esCards from "../../text/help/es/cards.json";
import esClass from "../../text/help/es/class.json";
import esContract from "../../text/help/es/contract.json";
import esGroup from "../../text/help/es/group.json";
import esGroups from "../../text/help/es/groups.json";
import esHeld from "../../text/help/es/held.json";
import esHomeCard from "../../text/help/es/homeCard.json";
import esNotebook from "../../text/help/es/notebook.json";
import esObserve from "../../text/help/es/observe.json";
import esPairs from "../../text/help/es/pairs.json";
import esPlan from "../../text/help/es/plan.json";
import esPoints from "../../text/help/es/points.json";
import esPractice from "../../text/help/es/practice.json";
import esPrint from "../../text/help/es/print.json";
import esProgress from "../../text/help/es/progress.json";
import esSeats from "../../text/help/es/seats.json";
import esSession from "../../text/help/es/session.json";
import esSettings from "../../text/help/es/settings.json";
import esStudent from "../../text/help/es/student.json";
import esSure from "../../text/help/es/sure.json";
import esTeams from "../../text/help/es/teams.json";
import esToday from "../../text/help/es/today.json";
import esTransfer from "../../text/help/es/transfer.json";
import type { Topic } from "./topics.ts";

/** One page of help: what the screen is for, what to do there, and what is often asked. */
export interface HelpPage {
  readonly title: string;
  readonly lead: string;
  readonly steps: readonly string[];
  readonly questions: readonly { readonly ask: string; readonly say: string }[];
}

/** All pages in both languages; loaded when help is opened for the first time. */
export const book: Readonly<Record<Language, Readonly<Record<Topic, HelpPage>>>> = {
  en: {
    notebook: enNotebook,
    today: enToday,
    groups: enGroups,
    group: enGroup,
    agreed: enAgreed,
    homeCard: enHomeCard,
    contract: enContract,
    plan: enPlan,
    session: enSession,
    cards: enCards,
    progress: enProgress,
    class: enClass,
    student: enStudent,
    sure: enSure,
    practice: enPractice,
    observe: enObserve,
    held: enHeld,
    points: enPoints,
    teams: enTeams,
    pairs: enPairs,
    seats: enSeats,
    transfer: enTransfer,
    settings: enSettings,
    print: enPrint,
  },
  es: {
    notebook: esNotebook,
    today: esToday,
    groups: esGroups,
    group: esGroup,
    agreed: esAgreed,
    homeCard: esHomeCard,
    contract: esContract,
    plan: esPlan,
    session: esSession,
    cards: esCards,
    progress: esProgress,
    class: esClass,
    student: esStudent,
    sure: esSure,
    practice: esPractice,
    observe: esObserve,
    held: esHeld,
    points: esPoints,
    teams: esTeams,
    pairs: esPairs,
    seats: esSeats,
    transfer: esTransfer,
    settings: esSettings,
    print: esPrint,
  },
};
