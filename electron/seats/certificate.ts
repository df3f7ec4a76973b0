import { X509Certificate } from "node:crypto";
import { readFileSync } from "node:fs";

/** What the encrypted line needs. */
export interface Certificate {
  readonly cert: string;
  readonly key: string;
}

/** The file given cannot be used; the message says what to do. */
export class CertificateError extends Error {
  constructor(problem: string) {
    super(
      `The certificate for seats cannot be used: ${problem} Ask whoever looks after the school's devices for a PEM file with certificate and key that these devices trust.`,
    );
    this.name = "CertificateError";
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
    throw new CertificateError("the file cannot be read.");
  }
  const certificates = text.match(/-----BEGIN CERTIFICATE-----[\s\S]+?-----END CERTIFICATE-----/g);
  const key = /-----BEGIN ([A-Z ]*)PRIVATE KEY-----[\s\S]+?-----END \1PRIVATE KEY-----/.exec(text);
  const first = certificates?.[0];
  if (certificates === null || first === undefined || key === null) {
    throw new CertificateError("it needs both a certificate and a private key.");
  }
  let parsed: X509Certificate;
  try {
    parsed = new X509Certificate(first);
  } catch {
    throw new CertificateError("it is not a certificate in PEM form.");
  }
  if (parsed.checkIssued(parsed)) throw new CertificateError("it is signed by itself.");
  if (Date.parse(parsed.validTo) < nowMs) throw new CertificateError("it has run out.");
  return { cert: certificates.join("\n"), key: key[0] };
}
