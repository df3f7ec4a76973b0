import { expect, it } from "vitest";
import {
  type AgreedAnswer,
  type AgreedLine,
  type AgreedSaid,
  agreedLines,
  standsFor,
  takesPart,
  unanswered,
} from "../../../../shared/home/agreed.ts";

const said = (line: AgreedLine, answer: AgreedAnswer, day = "2026-03-02"): AgreedSaid => ({
  line,
  answer,
  day,
  who: "",
});

it("what was written down last stands, whatever day it names", () => {
  const answers = [said("cued", "no", "2026-03-09"), said("cued", "yes", "2026-03-02")];
  expect(standsFor(answers, "cued")?.answer).toBe("yes");
  expect(standsFor(answers, "observed")).toBeNull();
  expect(standsFor([...answers, said("cued", "open")], "cued")).toBeNull();
});

it("only a plain no keeps somebody out", () => {
  expect(takesPart([])).toBe(true);
  expect(takesPart([said("cued", "no")])).toBe(false);
  expect(takesPart([said("cued", "no"), said("cued", "open")])).toBe(true);
  expect(takesPart([said("observed", "no")])).toBe(true);
});

it("nothing is asked beyond a no to taking part", () => {
  expect(unanswered([])).toEqual([...agreedLines]);
  expect(unanswered([said("cued", "yes"), said("points", "no")])).toEqual([
    "observed",
    "taken",
    "home-card",
  ]);
  expect(unanswered([said("cued", "no")])).toEqual([]);
});
