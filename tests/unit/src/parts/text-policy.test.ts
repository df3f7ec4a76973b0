import { expect, it } from "vitest";
import { onlyEmpty, ownAddress } from "../../../../src/parts/text-policy.ts";

it.each(["/assets/analysis.worker-BxH-0KbC.js", "/assets/compute.worker-A_1.js"])(
  "runs the page's own helper %s",
  (address) => expect(ownAddress(address)).toBe(address),
);

it.each([
  "",
  "/assets/other-BxH.js",
  "/assets/analysis-BxH.js",
  "https://evil.example/assets/analysis.worker-B.js",
  "//evil.example/assets/analysis.worker-B.js",
  "/assets/../analysis.worker-B.js",
  "/assets/analysis.worker-B.js?x=1",
  "/assets/analysis.worker-B.json",
  "data:text/javascript,1",
  "blob:http://127.0.0.1/1",
])("runs nothing else: %j", (address) => {
  expect(() => ownAddress(address)).toThrow(TypeError);
});

it("lets nothing but an empty text become HTML", () => {
  expect(["", " ", "<b>x</b>"].map(onlyEmpty)).toEqual(["", null, null]);
});
