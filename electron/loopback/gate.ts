import { randomBytes, timingSafeEqual } from "node:crypto";

/** What of a request decides whether it comes from our own page. */
export interface Caller {
  readonly host: string | undefined;
  readonly origin: string | undefined;
  readonly cookie: string | undefined;
}

/** Unspent invitations are few: one for the first page and one for each further start. */
const mostInvitations = 20;

/**
 * Decides who may talk to the loopback host. Any program on this machine and any web page in the browser
 * can reach the port; only a browser that was given an invitation gets in.
 *
 * An invitation is a secret in the printed address. It is good for one visit, which exchanges it for a
 * cookie; so the address in a history or a log opens nothing.
 * @param port the port that was bound; both it and the host's name must be right in every request, or a
 *   name that an attacker points at this machine (DNS rebinding) would do
 */
export function openGate(port: number) {
  const host = `127.0.0.1:${port}`;
  const origin = `http://${host}`;
  // Cookies do not tell ports apart, so the name does.
  const cookieName = `pebblechime-${port}`;
  const visitor = secret();
  const invitations = new Set<string>();

  const isOurHost = (caller: Caller) => caller.host === host;
  const hasCookie = ({ cookie = "" }: Caller) =>
    cookie.split(/; */).some((pair) => isSame(pair, `${cookieName}=${visitor}`));

  return {
    origin,
    /** A fresh address that opens the app once. */
    invite(): string {
      const [oldest] = invitations;
      if (invitations.size >= mostInvitations && oldest !== undefined) invitations.delete(oldest);
      const invitation = secret();
      invitations.add(invitation);
      return `${origin}/?key=${invitation}`;
    },
    /** Spends an invitation. @returns the cookie to set, or null when it is unknown or spent */
    exchange(invitation: string): string | null {
      if (!invitations.delete(invitation)) return null;
      return `${cookieName}=${visitor}; HttpOnly; SameSite=Strict; Path=/`;
    },
    /** Whether a request was addressed to us by name. */
    isOurHost,
    /** Whether a request, when it names its origin, was made by our page. */
    isOurOrigin: (caller: Caller) => caller.origin === undefined || caller.origin === origin,
    hasCookie,
    /** Whether a socket may be opened. Browsers always name the origin of one. */
    maySpeak: (caller: Caller) =>
      isOurHost(caller) && caller.origin === origin && hasCookie(caller),
  };
}
export type Gate = ReturnType<typeof openGate>;

/** 256 random bits, in letters and digits that fit into an address. */
export function secret(): string {
  return randomBytes(32).toString("base64url");
}

/** Compares without telling by its time how much was right. */
export function isSame(given: string, wanted: string): boolean {
  const [a, b] = [Buffer.from(given), Buffer.from(wanted)];
  return a.length === b.length && timingSafeEqual(a, b);
}
