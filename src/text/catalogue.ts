import type { languages } from "../../shared/api/app.ts";
import enAdult from "./en/adult.json";
import enAdvice from "./en/advice.json";
import enAgreed from "./en/agreed.json";
import enArchive from "./en/archive.json";
import enCards from "./en/cards.json";
import enCare from "./en/care.json";
import enClassScreen from "./en/class-screen.json";
import enCommon from "./en/common.json";
import enContract from "./en/contract.json";
import enCounting from "./en/counting.json";
import enDayTimes from "./en/day-times.json";
import enDesigns from "./en/designs.json";
import enEntry from "./en/entry.json";
import enFamily from "./en/family.json";
import enGroups from "./en/groups.json";
import enHeld from "./en/held.json";
import enHelp from "./en/help.json";
import enHomeCard from "./en/home-card.json";
import enMatch from "./en/match.json";
import enNews from "./en/news.json";
import enNotes from "./en/notes.json";
import enObserve from "./en/observe.json";
import enOwn from "./en/own.json";
import enOwnChime from "./en/own-chime.json";
import enOwnCues from "./en/own-cues.json";
import enPairs from "./en/pairs.json";
import enPictures from "./en/pictures.json";
import enPlan from "./en/plan.json";
import enPoints from "./en/points.json";
import enPractice from "./en/practice.json";
import enPrint from "./en/print.json";
import enProgram from "./en/program.json";
import enProgress from "./en/progress.json";
import enPurse from "./en/purse.json";
import enRestore from "./en/restore.json";
import enRoll from "./en/roll.json";
import enSeatPage from "./en/seat-page.json";
import enSeatSheets from "./en/seat-sheets.json";
import enSeats from "./en/seats.json";
import enSession from "./en/session.json";
import enSettings from "./en/settings.json";
import enSounding from "./en/sounding.json";
import enSure from "./en/sure.json";
import enTeams from "./en/teams.json";
import enToday from "./en/today.json";
import enTransfer from "./en/transfer.json";
import enTrend from "./en/trend.json";
import enWorry from "./en/worry.json";
import esAdult from "./es/adult.json";
import esAdvice from "./es/advice.json";
import esAgreed from "./es/agreed.json";
import esArchive from "./es/archive.json";
import esCards from "./es/cards.json";
import esCare from "./es/care.json";
import esClassScreen from "./es/class-screen.json";
import esCommon from "./es/common.json";
import esContract from "./es/contract.json";
import esCounting from "./es/counting.json";
import esDayTimes from "./es/day-times.json";
import esDesigns from "./es/designs.json";
import esEntry from "./es/entry.json";
import esFamily from "./es/family.json";
import esGroups from "./es/groups.json";
import esHeld from "./es/held.json";
import esHelp from "./es/help.json";
import esHomeCard from "./es/home-card.json";
import esMatch from "./es/match.json";
import esNews from "./es/news.json";
import esNotes from "./es/notes.json";
import esObserve from "./es/observe.json";
import esOwn from "./es/own.json";
import esOwnChime from "./es/own-chime.json";
import esOwnCues from "./es/own-cues.json";
import esPairs from "./es/pairs.json";
import esPictures from "./es/pictures.json";
import esPlan from "./es/plan.json";
import esPoints from "./es/points.json";
import esPractice from "./es/practice.json";
import esPrint from "./es/print.json";
import esProgram from "./es/program.json";
import esProgress from "./es/progress.json";
import esPurse from "./es/purse.json";
import esRestore from "./es/restore.json";
import esRoll from "./es/roll.json";
import esSeatPage from "./es/seat-page.json";
import esSeatSheets from "./es/seat-sheets.json";
import esSeats from "./es/seats.json";
import esSession from "./es/session.json";
import esSettings from "./es/settings.json";
import esSounding from "./es/sounding.json";
import esSure from "./es/sure.json";
import esTeams from "./es/teams.json";
import esToday from "./es/today.json";
import esTransfer from "./es/transfer.json";
import esTrend from "./es/trend.json";
import esWorry from "./es/worry.json";

// One file a screen and language; a screen's author adds its two files here.
const english = {
  ...enCommon,
  ...enClassScreen,
  ...enArchive,
  ...enCare,
  ...enDesigns,
  ...enEntry,
  ...enFamily,
  ...enSure,
  ...enTeams,
  ...enToday,
  ...enGroups,
  ...enPlan,
  ...enDayTimes,
  ...enOwnChime,
  ...enOwnCues,
  ...enSettings,
  ...enRestore,
  ...enSeatPage,
  ...enSeatSheets,
  ...enSeats,
  ...enSession,
  ...enAdult,
  ...enRoll,
  ...enCounting,
  ...enSounding,
  ...enNews,
  ...enNotes,
  ...enObserve,
  ...enPoints,
  ...enPractice,
  ...enOwn,
  ...enPairs,
  ...enPictures,
  ...enCards,
  ...enHeld,
  ...enProgram,
  ...enAdvice,
  ...enAgreed,
  ...enHomeCard,
  ...enContract,
  ...enHelp,
  ...enMatch,
  ...enProgress,
  ...enPurse,
  ...enPrint,
  ...enTransfer,
  ...enTrend,
  ...enWorry,
};

/** The id of a message; English decides which there are. */
export type MessageId = keyof typeof english;
export type Language = (typeof languages)[number];

const spanish: Record<MessageId, string> = {
  ...esCommon,
  ...esClassScreen,
  ...esArchive,
  ...esCare,
  ...esDesigns,
  ...esEntry,
  ...esFamily,
  ...esSure,
  ...esTeams,
  ...esToday,
  ...esGroups,
  ...esPlan,
  ...esDayTimes,
  ...esOwnChime,
  ...esOwnCues,
  ...esSettings,
  ...esRestore,
  ...esSeatPage,
  ...esSeatSheets,
  ...esSeats,
  ...esSession,
  ...esAdult,
  ...esRoll,
  ...esCounting,
  ...esSounding,
  ...esNews,
  ...esNotes,
  ...esObserve,
  ...esPoints,
  ...esPractice,
  ...esOwn,
  ...esPairs,
  ...esPictures,
  ...esCards,
  ...esHeld,
  ...esProgram,
  ...esAdvice,
  ...esAgreed,
  ...esHomeCard,
  ...esContract,
  ...esHelp,
  ...esMatch,
  ...esProgress,
  ...esPurse,
  ...esPrint,
  ...esTransfer,
  ...esTrend,
  ...esWorry,
};

/** All messages of a language, as ICU message text by id. */
export const catalogues: Record<Language, Record<MessageId, string>> = {
  en: english,
  es: spanish,
};
