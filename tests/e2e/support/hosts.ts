import type { Page } from "playwright";
import { type LaunchOptions, launchApp, launchLoopback } from "./launch.ts";

/** What a journey needs of a running app, whichever host carries it. */
export interface HostedApp {
  page(): Promise<Page>;
  close(): Promise<unknown>;
  /** Ends the app's process at once, as a power cut would. */
  kill(): Promise<unknown>;
}

/** The hosts on which every journey runs: the desktop shell, and the loopback host in a browser. */
export const hosts: readonly {
  readonly name: string;
  readonly launch: (options: LaunchOptions) => Promise<HostedApp>;
}[] = [
  { name: "in the desktop shell", launch: launchApp },
  { name: "in a browser on this machine", launch: launchLoopback },
];
