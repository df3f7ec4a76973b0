/** The app's pages live at `pebblechime://app/...`: a scheme of our own, never a file address. */
export const appScheme = "pebblechime";
export const appHost = "app";

/** @param path of a page, such as `/board` */
export function appAddress(path: `/${string}`): string {
  return `${appScheme}://${appHost}${path}`;
}

/**
 * Whether an address belongs to the app. Scheme and host are compared after parsing: comparing text
 * would let `pebblechime://app.elsewhere` through.
 */
export function isAppAddress(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, host, username, password } = new URL(address);
  return protocol === `${appScheme}:` && host === appHost && username === "" && password === "";
}
