// What is used here of the Trusted Types interface (W3C), which the compiler's own types do not have yet.
interface TrustedTypes {
  createPolicy(
    name: string,
    rules: {
      createScriptURL: (address: string) => string;
      createHTML: (text: string) => string | null;
    },
  ): unknown;
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

/**
 * An empty text as HTML is nothing; every other text is refused. The announcer for screen readers in the
 * component library empties its own element so: without this a second change of a number field would end the page.
 */
export const onlyEmpty = (text: string): string | null => (text === "" ? text : null);

// The one policy that the content policy allows. The browser asks it by itself wherever text would become a
// program or HTML, so it needs no hand that holds it. Browsers that know no such policies ask nothing.
if (typeof window !== "undefined") {
  window.trustedTypes?.createPolicy("default", {
    createScriptURL: ownAddress,
    createHTML: onlyEmpty,
  });
}
