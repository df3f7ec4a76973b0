import { hostname, networkInterfaces } from "node:os";
import type { Certificate } from "./certificate.ts";

/**
 * The addresses under which devices of the same network can reach this computer, the likeliest first:
 * IPv4 of a private network, other IPv4, IPv6. Link-local ones need a zone and are left out.
 */
export function reachableAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((each) => each ?? []);
  const outside = all.filter(({ internal, address }) => !internal && !/^fe80:/i.test(address));
  const rank = ({ family, address }: { family: string; address: string }) =>
    family === "IPv6" ? 2 : isPrivate(address) ? 0 : 1;
  return outside.sort((one, other) => rank(one) - rank(other)).map(({ address }) => address);
}

const isPrivate = (address: string): boolean =>
  /^(10\.|192\.168\.|172\.(1[6-9]|2\d|3[01])\.)/.test(address);

/** An address as it stands in a link. */
export const inLink = (address: string): string =>
  address.includes(":") ? `[${address}]` : address;

/**
 * Whether a request's `Host` names this computer: by one of its own addresses or its own name, or by what its
 * certificate is for. Any other name may be a stranger's that was pointed here, so that his page passes for
 * ours.
 */
export function isOwnHost(
  host: string | undefined,
  port: number,
  certificate: Pick<Certificate, "covers"> | null,
): boolean {
  const found = /^(\[[^\]]+\]|[^:]+)(?::(\d+))?$/.exec(host ?? "");
  // A browser leaves out the port that belongs to the scheme.
  const usual = certificate === null ? 80 : 443;
  if (found === null || Number(found[2] ?? usual) !== port) return false;
  const name = (found[1] ?? "").toLowerCase();
  const own = Object.values(networkInterfaces()).flatMap((each) => each ?? []);
  if (own.some(({ address }) => inLink(address).toLowerCase() === name)) return true;
  // All of 127.0.0.0/8 is this computer.
  if (/^127\.\d{1,3}\.\d{1,3}\.\d{1,3}$/.test(name)) return true;
  if (certificate?.covers(name.replace(/^\[|\]$/g, "")) === true) return true;
  const ours = hostname().toLowerCase();
  return name === ours || name === `${ours}.local` || name === "localhost";
}
