import { first } from "./001-first.ts";
import { programAndImports } from "./002-program-and-imports.ts";
import { drawnStart } from "./003-drawn-start.ts";
import { programOverWeeks } from "./004-program-over-weeks.ts";
import { importedPhases } from "./005-imported-phases.ts";
import { pointsLedger } from "./006-points.ts";
import { alternation } from "./007-alternation.ts";
import { schoolAndHome } from "./008-home.ts";
import { pointsWishes } from "./009-points-wishes.ts";
import { movesTermsChimes } from "./010-moves-terms-chimes.ts";
import { teamsAndPairs } from "./011-teams.ts";
import { seats } from "./012-seats.ts";
import { familyWords } from "./013-family-words.ts";
import { earlierTeamPlaces } from "./014-earlier-team-places.ts";

/**
 * Every migration ever released, oldest first: number n takes a database from version n - 1 to n.
 * Add to the end; never edit one that was released.
 */
export const migrations: readonly string[] = [
  first,
  programAndImports,
  drawnStart,
  programOverWeeks,
  importedPhases,
  pointsLedger,
  alternation,
  schoolAndHome,
  pointsWishes,
  movesTermsChimes,
  teamsAndPairs,
  seats,
  familyWords,
  earlierTeamPlaces,
];
