import { afterAll } from "vitest";
import { keepOneBrowser } from "../e2e/support/launch.ts";

// Starting a browser costs more than most journeys: the apps of a file share one, each in its own context.
afterAll(keepOneBrowser());
