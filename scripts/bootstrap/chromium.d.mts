/** @returns the path of a Chromium, or null when none could be had */
export function ensureChromium(): string | null;
