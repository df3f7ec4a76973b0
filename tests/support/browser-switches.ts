/**
 * Parts of Chromium that are drawn in pages of their own, unseen, for each window: the menu of the address
 * bar, and a process kept ready for the next page. They cost more than a page of the app does.
 */
const unseenParts = [
  "WebUIOmniboxPopup",
  "WebUIOmniboxAimPopup",
  "WebUIOmniboxFullPopup",
  "PreloadTopChromeWebUI",
  "SpareRendererForSitePerProcess",
];

/** What Playwright 1.65 leaves out itself: of two such switches Chromium heeds the last alone. */
const playwrightsOwn = [
  "AvoidUnnecessaryBeforeUnloadCheckSync",
  "DestroyProfileOnBrowserClose",
  "HttpsUpgrades",
  "HttpsFirstBalancedModeAutoEnable",
  "LensOverlay",
  "MediaRouter",
  "PaintHolding",
  "ThirdPartyStoragePartitioning",
  "AvoidCorsURLLoaderRestartOnRedirect",
  "TcpPortRandomizationWin",
  "OptimizationHints",
  "NetworkTimeServiceQuerying",
  "AimEnabled",
  "PreconnectToSearch",
];

/** For a browser of tests, whoever starts it: nothing in it but the app's own pages. */
export const withoutUnseenParts = `--disable-features=${unseenParts.join(",")}`;

/** The same for one that Playwright starts. */
export const withoutUnseenPartsInPlaywright = `${withoutUnseenParts},${playwrightsOwn.join(",")}`;
