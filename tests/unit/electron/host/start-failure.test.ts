import { expect, test } from "vitest";
import { ArgumentError } from "../../../../electron/host/arguments.ts";
import { startFailure } from "../../../../electron/host/start-failure.ts";
import { StoreError } from "../../../../electron/store/store.ts";

test("1. damage names the newest good backup and the command that restores it", () => {
  const error = new StoreError("damaged", { backup: "/data/backups/x-daily.sqlite" });
  const { text, exitCode } = startFailure(error, "/data");
  expect(text).toContain("The newest good backup: /data/backups/x-daily.sqlite");
  expect(text).toContain('npm run -s cli -- restore --data "/data"');
  expect(exitCode).toBe(2);
});

test("1b. whoever started the package of npm gets the command that it has", () => {
  const error = new StoreError("damaged", { backup: "/data/backups/x-daily.sqlite" });
  const { text } = startFailure(error, "/data", true);
  expect(text).toContain('with these words after it: cli restore --data "/data"');
  expect(text).not.toContain("npm run");
});

test("2. damage without a good backup says that there is none", () => {
  expect(startFailure(new StoreError("damaged"), "/data").text).toContain("no good backup");
});

test("3. an unknown failure shows where it was and never what it said", () => {
  let thrown: unknown;
  try {
    JSON.parse(`{"z"text":"Mia was\ntired"}`);
  } catch (error) {
    thrown = error;
  }
  const { text, exitCode } = startFailure(thrown, "/data");
  expect(text).toMatch(/could not start/);
  expect(text).toMatch(/SyntaxError\n\s+at /);
  expect(text).not.toMatch(/Mia|tired|text/);
  expect(exitCode).toBe(1);
});

test("4. wrong words on the command line are told as they are", () => {
  expect(startFailure(new ArgumentError("--data needs a folder."), null)).toMatchObject({
    text: expect.stringContaining("--data needs a folder."),
    exitCode: 2,
  });
});
