const allowedSchemes = ["https:", "mailto:"];
const longestAddress = 2_000;

/**
 * The address to hand to the system's browser or mail program, or null when it may not leave the app.
 * Only https and mailto may; credentials inside an address may not, because they hide where it leads.
 */
export function externalAddress(address: string): string | null {
  if (address.length > longestAddress || !URL.canParse(address)) return null;
  const url = new URL(address);
  if (!allowedSchemes.includes(url.protocol)) return null;
  if (url.username !== "" || url.password !== "") return null;
  return url.href;
}
