import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { CertificateError, readCertificate } from "../../../../electron/seats/certificate.ts";

let folder = "";
const now = Date.now();
const openssl = (...words: string[]) =>
  execFileSync("openssl", words, { cwd: folder, stdio: "pipe" });

/** An authority of our own, a certificate that it signed, and one that signed itself; made by OpenSSL. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "pebblechime-cert-"));
  const key = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"];
  openssl(
    "req",
    "-x509",
    ...key,
    "-keyout",
    "ca.key",
    "-out",
    "ca.crt",
    "-subj",
    "/CN=Invented authority",
  );
  openssl(
    "req",
    "-new",
    ...key,
    "-keyout",
    "room.key",
    "-out",
    "room.csr",
    "-subj",
    "/CN=room.example",
  );
  openssl(
    "x509",
    "-req",
    "-in",
    "room.csr",
    "-CA",
    "ca.crt",
    "-CAkey",
    "ca.key",
    "-out",
    "room.crt",
    "-days",
    "2",
  );
  const text = (name: string) => readFileSync(join(folder, name), "utf8");
  writeFileSync(join(folder, "good.pem"), text("room.crt") + text("ca.crt") + text("room.key"));
  writeFileSync(join(folder, "own.pem"), text("ca.crt") + text("ca.key"));
  writeFileSync(join(folder, "no-key.pem"), text("room.crt"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const read = (name: string, at = now) => readCertificate(join(folder, name), at);

it("a certificate of an authority is read with its chain and key", () => {
  const { cert, key } = read("good.pem");
  expect(cert.match(/BEGIN CERTIFICATE/g)).toHaveLength(2);
  expect(key).toContain("PRIVATE KEY");
});

it.each([
  ["own.pem", now, "signed by itself"],
  ["no-key.pem", now, "both a certificate and a private key"],
  ["absent.pem", now, "cannot be read"],
  ["good.pem", now + 3 * 86_400_000, "has run out"],
])("%s is refused, and what to do is said", (name, at, problem) => {
  expect(() => read(name, at)).toThrow(CertificateError);
  expect(() => read(name, at)).toThrow(problem);
  expect(() => read(name, at)).toThrow("Ask whoever looks after the school's devices");
});
