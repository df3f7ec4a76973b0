/** A UUID of version 4 (RFC 9562). Browsers make none themselves on a line that is not encrypted. */
export function pressId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) % 16) + 64;
  bytes[8] = ((bytes[8] ?? 0) % 64) + 128;
  let text = "";
  for (let at = 0; at < bytes.length; at += 1) {
    if (at === 4 || at === 6 || at === 8 || at === 10) text += "-";
    text += (256 + (bytes[at] ?? 0)).toString(16).slice(1);
  }
  return text;
}
