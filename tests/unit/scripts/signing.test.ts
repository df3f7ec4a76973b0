import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { signingFor } from "../../../scripts/packaging/signing.ts";

const root = join(import.meta.dirname, "../../..");
const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

// What a secret that nobody set looks like in a step of the build service.
const none = {
  MAC_CERTIFICATE: "",
  MAC_CERTIFICATE_PASSWORD: "",
  WINDOWS_CERTIFICATE: "",
  WINDOWS_CERTIFICATE_PASSWORD: "",
  APPLE_API_KEY: "",
  APPLE_API_KEY_ID: "",
  APPLE_API_ISSUER: "",
};
const all = {
  MAC_CERTIFICATE: "mac certificate",
  MAC_CERTIFICATE_PASSWORD: "mac password",
  WINDOWS_CERTIFICATE: "windows certificate",
  WINDOWS_CERTIFICATE_PASSWORD: "windows password",
  APPLE_API_KEY: "the key itself",
  APPLE_API_KEY_ID: "key id",
  APPLE_API_ISSUER: "issuer",
};

describe("what the builder is told for signing", () => {
  it.each([
    ["win", {}],
    ["mac", { BUILDER_WORDS: "--config.mac.identity=-" }],
  ] as const)("is no certificate and no key where no secret is set (%s)", (platform, told) => {
    const { variables, key, said } = signingFor(platform, none, "/tmp/key.p8");
    expect(variables).toEqual(told);
    expect(key).toBeNull();
    expect(said).toContain("not signed");
  });

  it("is each system's own certificate", () => {
    expect(signingFor("win", all, "/k.p8").variables).toEqual({
      WIN_CSC_LINK: "windows certificate",
      WIN_CSC_KEY_PASSWORD: "windows password",
    });
    expect(signingFor("mac", all, "/k.p8")).toMatchObject({
      variables: {
        CSC_LINK: "mac certificate",
        CSC_KEY_PASSWORD: "mac password",
        APPLE_API_KEY: "/k.p8",
        APPLE_API_KEY_ID: "key id",
        APPLE_API_ISSUER: "issuer",
      },
      key: "the key itself",
      said: "The macOS installer is signed and notarized.",
    });
    expect(signingFor("linux", all, "/k.p8").variables).toEqual({});
  });

  it("names no part of Apple's key where it is not complete", () => {
    const { variables, key, said } = signingFor("mac", { ...all, APPLE_API_ISSUER: "" }, "/k.p8");
    expect(Object.keys(variables)).toEqual(["CSC_LINK", "CSC_KEY_PASSWORD"]);
    expect(key).toBeNull();
    expect(said).toContain("not notarized");
  });

  it("is handed to the next steps, with the key in a file and a word in the summary", () => {
    const folder = mkdtempSync(join(tmpdir(), "pebblechime-signing-"));
    folders.push(folder);
    const [handed, summary] = [join(folder, "env"), join(folder, "summary")];
    for (const file of [handed, summary]) writeFileSync(file, "");
    const script = join(root, "scripts/packaging/signing.ts");
    const env = {
      ...process.env,
      ...all,
      MAC_CERTIFICATE: "two\nlines",
      RUNNER_TEMP: folder,
      GITHUB_ENV: handed,
      GITHUB_STEP_SUMMARY: summary,
    };
    execFileSync(process.execPath, [script, "mac"], { env, cwd: folder });
    expect(readFileSync(handed, "utf8")).toMatch(/^CSC_LINK<<(.+)\ntwo\nlines\n\1\n/);
    expect(readFileSync(handed, "utf8")).toContain(`\n${join(folder, "key.p8")}\n`);
    expect(readFileSync(join(folder, "key.p8"), "utf8")).toBe("the key itself\n");
    expect(readFileSync(summary, "utf8")).toContain("signed and notarized");
    // And beside the installers, from where it comes onto the page of the release.
    expect(readFileSync(join(folder, "build/installers/signing-mac.txt"), "utf8")).toBe(
      "- The macOS installer is signed and notarized.\n",
    );
    expect(readFileSync(join(root, ".github/workflows/release.yml"), "utf8")).toMatch(
      /signing-\*\.txt > signing\.md[\s\S]+--notes-file signing\.md/,
    );
  });
});
