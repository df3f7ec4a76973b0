import { ArgumentError } from "../host/arguments.ts";

// Switches that the system or a packager adds for Chromium, not for the app.
const chromiumSwitch =
  /^--?(no-sandbox|disable-|enable-|force-|ozone-|lang=|inspect|js-flags|remote-|gtk-|class=|psn_)/;

// They open the app's pages, and with them the record, to any program on the computer.
const debuggingSwitch = /^--?(remote-debugging|remote-allow-origins|inspect|js-flags)/i;

/**
 * The words of a command line that are meant for the app.
 * @param argv the whole line: the program, in development the app's path, then the rest
 * @param isPackaged whether the program is the app itself
 * @throws ArgumentError when the app itself is asked to let itself be debugged
 */
export function ownArguments(argv: readonly string[], isPackaged: boolean): readonly string[] {
  if (isPackaged && argv.slice(1).some((word) => debuggingSwitch.test(word))) {
    throw new ArgumentError("The installed app cannot be debugged.");
  }
  const given = argv.slice(1).filter((word) => !chromiumSwitch.test(word));
  return isPackaged ? given : given.slice(1);
}
