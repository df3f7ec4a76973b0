// Switches that the system or a packager adds for Chromium, not for the app.
const chromiumSwitch =
  /^--?(no-sandbox|disable-|enable-|force-|ozone-|lang=|inspect|remote-debugging|gtk-|class=|psn_)/;

/**
 * The words of a command line that are meant for the app.
 * @param argv the whole line: the program, in development the app's path, then the rest
 * @param isPackaged whether the program is the app itself
 */
export function ownArguments(argv: readonly string[], isPackaged: boolean): readonly string[] {
  const given = argv.slice(1).filter((word) => !chromiumSwitch.test(word));
  return isPackaged ? given : given.slice(1);
}
