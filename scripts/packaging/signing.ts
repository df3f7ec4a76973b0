// Run by the release workflow before the installers are made: hands on the secrets that are there, under
// the names by which the builder knows them, and says in the job's summary whether anything gets signed, and
// in a file beside the installers, for the page of the release: a teacher's computer warns of what is not.
import { randomUUID } from "node:crypto";
import { appendFileSync, mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Platform } from "./builder-files.ts";

export interface Signing {
  /** For the builder and its command. None is empty: the builder takes an empty certificate for a wrong one and stops. */
  readonly variables: Readonly<Record<string, string>>;
  /** The text of a file that a variable names, or null where none does. */
  readonly key: string | null;
  readonly said: string;
}

type Secrets = Readonly<Record<string, string | undefined>>;

/**
 * How the installers of a system get signed.
 *
 * @param secrets by the names they have in the build service, where one that is not set comes as ""
 * @param keyPath where the key for Apple's notary will be written; the builder wants a path
 */
export function signingFor(platform: Platform, secrets: Secrets, keyPath: string): Signing {
  const unsigned = (said: string): Signing => ({ variables: {}, key: null, said });
  if (platform === "linux") return unsigned("The Linux packages carry no signature of their own.");
  if (platform === "win") {
    const variables = given({
      WIN_CSC_LINK: secrets.WINDOWS_CERTIFICATE,
      WIN_CSC_KEY_PASSWORD: secrets.WINDOWS_CERTIFICATE_PASSWORD,
    });
    return "WIN_CSC_LINK" in variables
      ? { variables, key: null, said: "The Windows installer is signed." }
      : unsigned("The Windows installer is **not signed**: there is no certificate for it.");
  }
  const certificate = given({
    CSC_LINK: secrets.MAC_CERTIFICATE,
    CSC_KEY_PASSWORD: secrets.MAC_CERTIFICATE_PASSWORD,
  });
  if (!("CSC_LINK" in certificate))
    return {
      // Macs with Apple's processors start nothing without any signature, so it gets one of no person.
      variables: { BUILDER_WORDS: "--config.mac.identity=-" },
      key: null,
      said: "The macOS installer is **not signed**: there is no certificate for it.",
    };
  const key = secrets.APPLE_API_KEY ?? "";
  const notary = given({
    APPLE_API_KEY: key === "" ? "" : keyPath,
    APPLE_API_KEY_ID: secrets.APPLE_API_KEY_ID,
    APPLE_API_ISSUER: secrets.APPLE_API_ISSUER,
  });
  // The builder stops when it is told only a part of these.
  return Object.keys(notary).length === 3
    ? {
        variables: { ...certificate, ...notary },
        key,
        said: "The macOS installer is signed and notarized.",
      }
    : {
        variables: certificate,
        key: null,
        said: "The macOS installer is signed, but **not notarized**: Apple's key is not complete.",
      };
}

function given(values: Secrets): Record<string, string> {
  const kept: Record<string, string> = {};
  for (const [name, value = ""] of Object.entries(values)) if (value !== "") kept[name] = value;
  return kept;
}

/** The lines by which a step of the build service hands variables to the steps after it. */
export function handedOn(variables: Signing["variables"]): string {
  return Object.entries(variables)
    .map(([name, value]) => {
      // A certificate can have several lines; nothing in it ends the value early.
      const end = randomUUID();
      return `${name}<<${end}\n${value}\n${end}\n`;
    })
    .join("");
}

if (import.meta.main) {
  const { RUNNER_TEMP = "", GITHUB_ENV = "", GITHUB_STEP_SUMMARY = "" } = process.env;
  const [platform = ""] = process.argv.slice(2);
  if (platform !== "win" && platform !== "mac" && platform !== "linux")
    throw new Error("Say which system: win, mac or linux.");
  const keyPath = join(RUNNER_TEMP, "key.p8");
  const { variables, key, said } = signingFor(platform, process.env, keyPath);
  if (key !== null) writeFileSync(keyPath, `${key.trim()}\n`, { mode: 0o600 });
  appendFileSync(GITHUB_ENV, handedOn(variables));
  appendFileSync(GITHUB_STEP_SUMMARY, `${said}\n`);
  const installers = join("build", "installers");
  mkdirSync(installers, { recursive: true });
  writeFileSync(join(installers, `signing-${platform}.txt`), `- ${said}\n`);
  console.log(said);
}
