import { createPrivateKey, type KeyObject, X509Certificate } from "node:crypto";
import { readFileSync } from "node:fs";
import { isIP } from "node:net";
import type { CertificateProblem } from "../../shared/seats/certificate-problems.ts";

/** What the encrypted line needs. */
export interface Certificate {
  readonly cert: string;
  readonly key: string;
  /** Addresses and names that it is for, as devices may open them; a wildcard is none. */
  readonly names: readonly string[];
  /** Whether a device that opens this address or name trusts it. */
  covers(name: string): boolean;
}

const sentences: Readonly<Record<CertificateProblem, string>> = {
  unreadable: "the file cannot be read.",
  incomplete: "it needs both a certificate and a private key.",
  unclear: "it is not a certificate in PEM form.",
  locked: "its private key has a password, or is not a key.",
  otherKey: "its private key belongs to another certificate.",
  selfSigned: "it is signed by itself.",
  notYet: "it is not valid yet.",
  expired: "it has expired.",
  nameless: "it names no address that devices could open.",
};

/** The file given cannot be used; the message says what to do. */
export class CertificateError extends Error {
  readonly problem: CertificateProblem;

  constructor(problem: CertificateProblem) {
    super(
      `The certificate for seats cannot be used: ${sentences[problem]} Ask whoever looks after the school's devices for a PEM file with certificate and key that these devices trust.`,
    );
    this.name = "CertificateError";
    this.problem = problem;
  }
}

/**
 * Reads a PEM file with a certificate (and what belongs to its chain) and its private key. One that signed
 * itself is refused: it would teach children to press past a browser's warning.
 *
 * @param nowMs ms since 1970 UTC
 * @throws CertificateError
 */
export function readCertificate(path: string, nowMs: number): Certificate {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch {
    throw new CertificateError("unreadable");
  }
  const certificates = text.match(/-----BEGIN CERTIFICATE-----[\s\S]+?-----END CERTIFICATE-----/g);
  const key = /-----BEGIN ([A-Z ]*)PRIVATE KEY-----[\s\S]+?-----END \1PRIVATE KEY-----/.exec(text);
  const first = certificates?.[0];
  if (certificates === null || first === undefined || key === null) {
    throw new CertificateError("incomplete");
  }
  const parsed = orProblem("unclear", () => new X509Certificate(first));
  const secret: KeyObject = orProblem("locked", () => createPrivateKey(key[0]));
  if (!parsed.checkPrivateKey(secret)) throw new CertificateError("otherKey");
  if (parsed.checkIssued(parsed)) throw new CertificateError("selfSigned");
  if (Date.parse(parsed.validFrom) > nowMs) throw new CertificateError("notYet");
  if (Date.parse(parsed.validTo) < nowMs) throw new CertificateError("expired");
  // Browsers of the last years read these alone, and no common name.
  const named = parsed.subjectAltName?.split(", ") ?? [];
  const all = named.flatMap((each) => /^(?:DNS|IP Address):(.+)$/.exec(each)?.[1] ?? []);
  if (all.length === 0) throw new CertificateError("nameless");
  return {
    cert: certificates.join("\n"),
    key: key[0],
    names: all.filter((name) => !name.includes("*")),
    covers: (name) =>
      (isIP(name) === 0 ? parsed.checkHost(name) : parsed.checkIP(name)) !== undefined,
  };
}

function orProblem<Found>(problem: CertificateProblem, read: () => Found): Found {
  try {
    return read();
  } catch {
    throw new CertificateError(problem);
  }
}
