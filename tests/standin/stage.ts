import { randomUUID } from "node:crypto";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { type Chromium, startChromium } from "./chromium.ts";

/** Answers requests for one custom scheme, as the app's protocol handler does. */
export type SchemeHandler = (request: Request) => Response | Promise<Response>;

/** What all parts of the stand-in share: the one browser, and what the app has registered. */
export const stage = {
  browser: Promise.withResolvers<Chromium>(),
  schemes: new Map<string, SchemeHandler>(),
  switches: [] as string[],
  /** Names by which the two worlds of a page and the main side find each other; no page can guess them. */
  bridge: `standin-${randomUUID()}`,
  binding: `standin_${randomUUID().replaceAll("-", "")}`,
  worldName: "preload",
};

export async function raiseCurtain(executable: string, userData: string): Promise<Chromium> {
  const chromium = await startChromium(executable, join(userData, "chromium"), stage.switches);
  stage.browser.resolve(chromium);
  return chromium;
}

/** Ends the browser in good order, so that its profile is free for the next start. */
export async function lowerCurtain(): Promise<void> {
  const { devtools, process: browser } = await stage.browser.promise;
  const ended = new Promise((resolve) => browser.once("exit", resolve));
  await devtools.browser.send("Browser.close").catch(() => undefined);
  await Promise.race([ended, pause(3_000, null, { ref: false })]);
  browser.kill("SIGKILL");
}

/**
 * Chromium cannot navigate to a scheme it does not know. So `scheme://host/path` is shown as
 * `https://host/path`, with the same host: then absolute paths and origins behave as they will.
 */
export function shownAddress(address: string): string {
  if (!URL.canParse(address)) return address;
  const url = new URL(address);
  const scheme = url.protocol.slice(0, -1);
  if (!stage.schemes.has(scheme)) return address;
  hosts.set(url.host, scheme);
  return address.replace(`${scheme}:`, "https:");
}

/** The reverse of `shownAddress`: what the app's own code must get to see. */
export function appsAddress(address: string): string {
  const scheme = schemeOf(address);
  return scheme === null ? address : address.replace("https:", `${scheme}:`);
}

/** The registered scheme that stands behind a shown address, or null for an address of the world. */
export function schemeOf(address: string): string | null {
  if (!URL.canParse(address)) return null;
  const url = new URL(address);
  return url.protocol === "https:" ? (hosts.get(url.host) ?? null) : null;
}

const hosts = new Map<string, string>();
