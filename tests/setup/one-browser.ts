import { afterAll } from "vitest";
import { keepOneBrowser } from "../e2e/support/launch.ts";

// Starting a browser costs more than most journeys: the apps of a file share one, each in its own context.
// Files that share a process share it too, and Playwright ends it with the process.
const close = keepOneBrowser();
if (process.env.PEBBLECHIME_ISOLATED !== undefined) afterAll(close);
