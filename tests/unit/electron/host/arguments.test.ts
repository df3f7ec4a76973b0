import { describe, expect, it } from "vitest";
import {
  ArgumentError,
  isBackupPath,
  parseArguments,
} from "../../../../electron/host/arguments.ts";

const usual = {
  data: null,
  sample: false,
  speed: 1,
  timing: false,
  quiet: false,
  backup: null,
  seatsPort: 47_120,
  seatsCertificate: null,
  seatsAnAddress: 60,
};

describe("what a start was asked for", () => {
  it("is the usual start when nothing is said", () => {
    expect(parseArguments([])).toEqual(usual);
  });

  it("can be a backup to look at, where the system opens them", () => {
    expect(parseArguments(["copy.pebblechime"], true)).toEqual({
      ...usual,
      backup: "copy.pebblechime",
    });
    expect(() => parseArguments(["copy.pebblechime"])).toThrow(/not understood/);
    expect(() => parseArguments(["a.pebblechime", "b.pebblechime"], true)).toThrow(
      /not understood/,
    );
    expect(() => parseArguments(["letter.txt"], true)).toThrow(/not understood/);
    expect(["a.sqlite", "B.PEBBLECHIME", "--x.sqlite", "a.sqlite.txt"].map(isBackupPath)).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });

  it("is read in any order and either spelling", () => {
    const asked = { ...usual, data: "/tmp/class", sample: true, speed: 60, timing: true };
    expect(parseArguments(["--sample", "--data", "/tmp/class", "--timing", "--speed=60"])).toEqual(
      asked,
    );
    expect(parseArguments(["--speed", "60", "--data=/tmp/class", "--timing", "--sample"])).toEqual(
      asked,
    );
  });

  it.each([
    [["--data"], "--data needs a folder."],
    [["--data", "--sample"], "--data needs a folder."],
    [["--data", " "], "--data needs a folder."],
    [["--data="], "--data needs a folder."],
    [["--speed"], "--speed needs a number"],
    [["--speed", "fast"], "--speed needs a number"],
    [["--speed", "0"], "--speed needs a number"],
    [["--speed=-3"], "--speed needs a number"],
    [["--speed", "601"], "--speed needs a number"],
    [["--speed", "Infinity"], "--speed needs a number"],
    [["--speed="], "--speed needs a number"],
    [["--seats-port", "70000"], "--seats-port needs a whole number from 0 to 65535."],
    [["--seats-port=1.5"], "--seats-port needs a whole number from 0 to 65535."],
    [["--seats-certificate"], "--seats-certificate needs a file."],
    [["--seats-an-address", "0"], "--seats-an-address needs a whole number from 1 to 600."],
    [["--sample=yes"], "--sample takes no value."],
    [["--sampel"], '"--sampel" is not known.'],
    [["--data", "/a", "--data", "/b"], "--data is given twice"],
    [["--data=/a", "--data=/a"], "--data is given twice"],
    [["--speed", "2", "--speed", "3"], "--speed is given twice"],
    [["--__proto__"], '"--__proto__" is not known.'],
    [["--__proto__=x"], '"--__proto__" is not known.'],
    [["--constructor"], '"--constructor" is not known.'],
    [["class"], '"class" is not understood.'],
    [["-x"], '"--x" is not known.'],
  ])("is refused in one line when it makes no sense: %j", (words, problem) => {
    const parse = () => parseArguments(words);
    expect(parse).toThrow(ArgumentError);
    expect(parse).toThrow(problem);
    expect(parse).toThrow("Use: npm start");
    expect(parse).not.toThrow("\n");
  });
});
