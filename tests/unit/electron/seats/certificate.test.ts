import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { CertificateError, readCertificate } from "../../../../electron/seats/certificate.ts";
import { isOwnHost } from "../../../../electron/seats/own-addresses.ts";
import type { CertificateProblem } from "../../../../shared/seats/certificate-problems.ts";
import { type Certificates, makeCertificates } from "../../../faults/seats/certificates.ts";

let folder = "";
let made: Certificates;
let madeMs = 0;
const day = 86_400_000;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "pebblechime-cert-"));
  made = makeCertificates(folder);
  madeMs = Date.now();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("a certificate of an authority is read with its chain, key and names", () => {
  const { cert, key, names, covers } = readCertificate(made.good, madeMs);
  expect(cert.match(/BEGIN CERTIFICATE/g)).toHaveLength(2);
  expect(key).toContain("PRIVATE KEY");
  expect(names).toEqual(["127.0.0.1", "localhost", "room.example"]);
  expect(["127.0.0.1", "room.example", "one.rooms.example"].every(covers)).toBe(true);
  expect(["127.0.0.2", "elsewhere.example", "rooms.example"].some(covers)).toBe(false);
});

it.each<[keyof Certificates | "absent", number, CertificateProblem, string]>([
  ["own", 0, "selfSigned", "signed by itself"],
  ["noKey", 0, "incomplete", "both a certificate and a private key"],
  ["noCertificate", 0, "unclear", "not a certificate in PEM form"],
  ["otherKey", 0, "otherKey", "belongs to another certificate"],
  ["locked", 0, "locked", "has a password"],
  ["nameless", 0, "nameless", "names no address"],
  ["absent", 0, "unreadable", "cannot be read"],
  ["expired", 0, "expired", "has expired"],
  ["good", 3 * day, "expired", "has expired"],
  ["good", -3 * day, "notYet", "not valid yet"],
])("%s is refused, and what to do is said", (which, laterMs, problem, sentence) => {
  const path = which === "absent" ? join(folder, "absent.pem") : made[which];
  const read = () => readCertificate(path, madeMs + laterMs);
  expect(read).toThrow(CertificateError);
  expect(read).toThrow(expect.objectContaining({ problem }));
  expect(read).toThrow(sentence);
  expect(read).toThrow("Ask whoever looks after the school's devices");
});

it("a name that the certificate is for is this computer's, and no other; the scheme's port can be left out", () => {
  const certificate = readCertificate(made.good, madeMs);
  expect(isOwnHost("room.example:47120", 47_120, certificate)).toBe(true);
  expect(isOwnHost("room.example:47120", 47_120, null)).toBe(false);
  expect(isOwnHost("elsewhere.example:47120", 47_120, certificate)).toBe(false);
  expect(isOwnHost("room.example", 443, certificate)).toBe(true);
  expect(isOwnHost("127.0.0.1", 80, null)).toBe(true);
  expect(isOwnHost("127.0.0.1", 47_120, null)).toBe(false);
  expect(isOwnHost("[::1]:47120", 47_120, null)).toBe(true);
});
