import { CardsScreen } from "../screens/cards/cards-screen.tsx";
import { ObservedSheets } from "../screens/observe/observed-sheets.tsx";

/** The records of an ended session: a class's cards, or the sheets of those who watched it. */
export function CardsRoute() {
  return <CardsScreen observedSheets={(id) => <ObservedSheets key={id} sessionId={id} />} />;
}
