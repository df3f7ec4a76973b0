/**
 * The name under which something of one seat is kept on this device: a short sum of the seat's code tells
 * seats apart without keeping the code itself.
 *
 * Example: seatKey("waiting", "BCDFGHJK") // "pebblechime-waiting-" and a sum
 */
export function seatKey(what: string, code: string): string {
  let sum = 5381;
  for (let at = 0; at < code.length; at += 1)
    sum = (sum * 33 + code.charCodeAt(at)) % 4_294_967_296;
  return `pebblechime-${what}-${sum.toString(36)}`;
}
