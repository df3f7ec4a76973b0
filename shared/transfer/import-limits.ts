// What a file that comes in may hold. The page says so line by line; the desktop side insists.

/** Sessions in one file, each of one student and source. */
export const mostRows = 20_000;
/** A group has at most so many students after an import: more means a wrong column was taken for names. */
export const mostStudents = 100;
/** Letters. */
export const longestName = 60;
export const longestTarget = 300;
/** Milliseconds since 1970; earlier years are slips of the pen. */
export const earliestMs = Date.UTC(2000, 0, 1);
/** Where no clock is at hand, later years are slips of the pen too. */
export const latestMs = Date.UTC(2100, 0, 1);
