// The announcer for screen readers in the component library empties its own element with an empty text,
// which Trusted Types refuse: a second change of a number field would end the page. The policy that the
// browser asks by default lets through exactly that, and no other text becomes HTML.

/** An empty text as HTML is nothing; every other text is refused. */
const onlyEmpty = (text: string): string | null => (text === "" ? text : null);

if (typeof window !== "undefined") {
  window.trustedTypes?.createPolicy("default", { createHTML: onlyEmpty });
}
