// What is used here of the Trusted Types interface (W3C), which the compiler's own types do not have yet.
interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { createScriptURL: (address: string) => string },
  ): { createScriptURL(address: string): string };
  createPolicy(name: string, rules: { createHTML: (text: string) => string | null }): unknown;
}
declare global {
  interface Window {
    readonly trustedTypes?: TrustedTypes;
  }
}

/** The page's two helpers, as the build names their files. */
const ownProgram = /^\/assets\/(?:analysis|compute)\.worker-[\w-]+\.js$/;

/**
 * Checks the address of a program that is to run beside the page.
 *
 * @throws TypeError unless it is one of the page's own two helpers
 */
export function ownAddress(address: string): string {
  if (ownProgram.test(address)) return address;
  throw new TypeError("The page runs no program but its own two helpers.");
}

// The content policy allows this one policy and no other way of turning text into a program's address.
// Browsers that know no such policies get the plain address.
const policy =
  typeof window === "undefined"
    ? undefined
    : window.trustedTypes?.createPolicy("pebblechime", { createScriptURL: ownAddress });

/**
 * Starts one of the page's helpers.
 *
 * @param address as the build gives it for an import that ends in `?worker&url`
 */
export function startWorker(address: string): Worker {
  return new Worker(policy?.createScriptURL(address) ?? address, { type: "module" });
}
