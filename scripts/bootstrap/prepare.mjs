// Installs and builds what is missing; run as a program of its own where standard output belongs to another.
import { ensureBuilt } from "./built.mjs";
import { ensureDependencies } from "./dependencies.mjs";
import { requireNode } from "./run.mjs";
import { stop } from "./say.mjs";

requireNode();
ensureDependencies();
if (!ensureBuilt({ quiet: true })) stop("The app could not be built; the reason is above.");
