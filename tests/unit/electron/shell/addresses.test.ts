import { describe, expect, it } from "vitest";
import { appAddress, isAppAddress } from "../../../../electron/shell/address.ts";
import { externalAddress } from "../../../../electron/shell/external-links.ts";
import { ownArguments } from "../../../../electron/shell/own-arguments.ts";

// Electron's security checklist, items 13 and 15: compare parsed addresses, allow schemes by name.

describe("isAppAddress", () => {
  it("takes the app's own pages", () => {
    expect(appAddress("/board")).toBe("pebblechime://app/board");
    for (const address of ["pebblechime://app/", "pebblechime://app/board?x=1#y"]) {
      expect(isAppAddress(address)).toBe(true);
    }
  });

  it("refuses what only looks like them", () => {
    const others = [
      "",
      "about:blank",
      "https://app/",
      "pebblechime://app.elsewhere.example/",
      "pebblechime://elsewhere/app/",
      "pebblechime://app@elsewhere.example/",
      "pebblechime://someone@app/",
      "pebblechime:app",
      "file:///app/index.html",
      "https://elsewhere.example/?next=pebblechime://app/",
    ];
    for (const address of others) expect(isAppAddress(address), address).toBe(false);
  });
});

describe("externalAddress", () => {
  it("lets https and mailto through", () => {
    expect(externalAddress("https://example.org/a b")).toBe("https://example.org/a%20b");
    expect(externalAddress("mailto:team@example.org")).toBe("mailto:team@example.org");
  });

  it("stops every other scheme, hidden credentials, and what is no address", () => {
    const others = [
      "http://example.org/",
      "file:///etc/hosts",
      "javascript:alert(1)",
      "data:text/html,x",
      "smb://server/share",
      "ms-settings:privacy",
      "https://bank.example@elsewhere.example/",
      "//example.org/",
      "not an address",
      `https://example.org/${"a".repeat(2_000)}`,
    ];
    for (const address of others) expect(externalAddress(address), address).toBeNull();
  });
});

describe("ownArguments", () => {
  it.each([
    "--remote-debugging-port=9222",
    "--remote-debugging-pipe",
    "-remote-debugging-port=0",
    "--Remote-Debugging-Port=1",
    "--inspect",
    "--inspect-brk=9229",
    "--js-flags=--expose-gc",
    "--remote-allow-origins=*",
  ])("refuses %s in the installed app, and lets a developer have it", (word) => {
    expect(() => ownArguments(["Pebblechime", word], true)).toThrow(/cannot be debugged/);
    expect(ownArguments(["electron", word.toLowerCase(), "."], false)).toEqual([]);
  });

  it("leaves out the program, the app's path in development, and Chromium's switches", () => {
    expect(ownArguments(["electron", "--no-sandbox", ".", "--data", "x"], false)).toEqual([
      "--data",
      "x",
    ]);
    expect(ownArguments(["Pebblechime", "--ozone-platform=x11", "--sample"], true)).toEqual([
      "--sample",
    ]);
  });
});
