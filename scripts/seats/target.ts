/**
 * The oldest browsers that the page for students' own devices is built for: tablets of ten and more years
 * ago that still get, or last got, Safari 12 (iPadOS 12: iPad Air and iPad mini 2, of 2013), Chrome 69
 * (Android 4.4 to today, as updated in 2018) and Firefox 68. A test parses the built file at this edition
 * of the language, and looks for functions that came later.
 */
export const seatTarget = ["es2017", "safari12", "chrome69", "firefox68"];

/** The edition of the language, as a parser names it. */
export const seatEdition = 2017;
