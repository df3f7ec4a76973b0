/**
 * The oldest browsers that the page for students' own devices is built for: tablets of ten and more years
 * ago that still get, or last got, Safari 12 (iOS 12: iPad Air and iPad mini 2, of 2013), Chrome 69
 * (Android 4.4 to today, as updated in 2018) and Firefox 68; devices and years are from memory. A test
 * parses the built file at this edition of the language, and looks for functions that came later.
 *
 * What each browser knows: the bundler rewrites what its table, made of the project compat-table, counts as
 * missing in one of them. It cannot rewrite destructuring, which these know (MDN's browser-compat-data,
 * javascript/operators/destructuring: Chrome 49, Firefox 41, Safari 8) but for the rest of an array, which is
 * wrong in Safari 9 to 13.1 (compat-table, pull request 2008): the test finds none in the built file.
 */
export const seatTarget = ["es2017", "safari12", "chrome69", "firefox68"];

/** The edition of the language, as a parser names it. */
export const seatEdition = 2017;
