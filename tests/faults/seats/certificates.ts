import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** What is tried out with a start: files of an authority of our own, made by OpenSSL. */
export interface Certificates {
  /** For 127.0.0.1, localhost and room.example, with its chain and key. */
  readonly good: string;
  /** Signed by itself. */
  readonly own: string;
  readonly noKey: string;
  /** The key belongs to another certificate. */
  readonly otherKey: string;
  /** The key has a password. */
  readonly locked: string;
  /** It names no address. */
  readonly nameless: string;
  readonly expired: string;
  readonly noCertificate: string;
  /** What a device of the school trusts. */
  readonly authority: string;
}

/** Makes them in a folder. */
export function makeCertificates(folder: string): Certificates {
  const openssl = (...words: string[]) =>
    execFileSync("openssl", words, { cwd: folder, stdio: "pipe" });
  const text = (name: string) => readFileSync(join(folder, name), "utf8");
  const file = (name: string, content: string) => {
    writeFileSync(join(folder, name), content);
    return join(folder, name);
  };
  const curve = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"];
  const ca = ["-keyout", "ca.key", "-out", "ca.crt", "-subj", "/CN=Invented authority"];
  openssl("req", "-x509", ...curve, ...ca);
  const signed = (name: string, days: number, names: string) => {
    const subject = ["-subj", "/CN=room.example"];
    openssl("req", "-new", ...curve, "-keyout", `${name}.key`, "-out", `${name}.csr`, ...subject);
    const by = ["-CA", "ca.crt", "-CAkey", "ca.key", "-CAcreateserial"];
    file(`${name}.ext`, names === "" ? "basicConstraints=CA:FALSE" : `subjectAltName=${names}`);
    const how = ["-extfile", `${name}.ext`, "-out", `${name}.crt`, "-days", String(days)];
    openssl("x509", "-req", "-in", `${name}.csr`, ...by, ...how);
  };
  const names = "IP:127.0.0.1,DNS:localhost,DNS:room.example,DNS:*.rooms.example";
  signed("room", 2, names);
  signed("nameless", 2, "");
  // Valid until the day before it was made.
  signed("expired", -1, names);
  openssl("ec", "-in", "room.key", "-aes256", "-passout", "pass:word", "-out", "locked.key");
  return {
    good: file("good.pem", text("room.crt") + text("ca.crt") + text("room.key")),
    own: file("own.pem", text("ca.crt") + text("ca.key")),
    noKey: file("no-key.pem", text("room.crt")),
    otherKey: file("other-key.pem", text("room.crt") + text("nameless.key")),
    locked: file("locked.pem", text("room.crt") + text("locked.key")),
    nameless: file("nameless.pem", text("nameless.crt") + text("nameless.key")),
    expired: file("expired.pem", text("expired.crt") + text("expired.key")),
    noCertificate: file(
      "no-certificate.pem",
      `-----BEGIN CERTIFICATE-----\nnone\n-----END CERTIFICATE-----\n${text("room.key")}`,
    ),
    authority: join(folder, "ca.crt"),
  };
}
