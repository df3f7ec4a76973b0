import { expect, it } from "vitest";
import { hasScreen } from "../../../../electron/loopback/browser.ts";

it.each([
  ["linux", {}, false],
  ["linux", { DISPLAY: "" }, false],
  ["linux", { DISPLAY: ":0" }, true],
  ["linux", { WAYLAND_DISPLAY: "wayland-0" }, true],
  ["linux", { DISPLAY: ":0", SSH_CONNECTION: "10.0.0.1 1 10.0.0.2 22" }, false],
  ["linux", { DISPLAY: ":0", CI: "true" }, false],
  ["darwin", {}, true],
  ["win32", {}, true],
])("opens a browser on %s with %j: %s", (platform, environment, opens) => {
  expect(hasScreen(platform, environment)).toBe(opens);
});
