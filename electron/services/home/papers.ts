import type { HomePapers } from "../../../shared/transfer/home-papers.ts";
import type { Store } from "../../store/store.ts";

/** Long before and long after any day that a card can have. */
const firstDay = "0000-01-01";
const lastDay = "9999-12-31";

/** All that was agreed about a student, rated on home cards and written in contracts, as it leaves. */
export function papersOf(
  { agreed, homeCards, contracts }: Pick<Store, "agreed" | "homeCards" | "contracts">,
  studentId: string,
): HomePapers {
  const { said, reviewOn, language } = agreed.page(studentId);
  return {
    studentId,
    agreed: said,
    reviewOn,
    language,
    homeCards: homeCards.versions(studentId).map(({ studentId: _, ...version }) => version),
    homeCardDays: homeCards.days(studentId, firstDay, lastDay),
    contracts: contracts
      .ofStudent(studentId)
      .reverse()
      .map(({ studentId: _, ...contract }) => ({
        ...contract,
        closedDays: contracts.closedDays(contract.id).map(({ day }) => day),
      })),
  };
}

/** The same with every text passed through `blank`, such as one that takes other students' names out. */
export function papersWith(papers: HomePapers, blank: (text: string) => string): HomePapers {
  return {
    ...papers,
    agreed: papers.agreed.map((said) => ({ ...said, who: blank(said.who) })),
    homeCards: papers.homeCards.map(({ card, ...version }) => ({
      ...version,
      card: { ...card, goals: card.goals.map(blank), periods: card.periods.map(blank) },
    })),
    homeCardDays: papers.homeCardDays.map((day) => ({
      ...day,
      homework: blank(day.homework),
      wentWell: blank(day.wentWell),
      tomorrow: blank(day.tomorrow),
    })),
    contracts: papers.contracts.map(({ terms, ...contract }) => ({
      ...contract,
      terms: { ...terms, earns: blank(terms.earns), checkedBy: blank(terms.checkedBy) },
    })),
  };
}
