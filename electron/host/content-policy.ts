/**
 * What a page of the app may load: its own files, and connections to where it came from. Nothing inline,
 * nothing evaluated, nothing from elsewhere, and no other page may show it in a frame.
 */
export const contentPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "font-src 'self'",
  "media-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
  // The page's one policy, src/parts/text-policy.ts, lets through the addresses of its two workers.
  "require-trusted-types-for 'script'",
  "trusted-types default",
].join("; ");

/** Sent with every answer of either host, errors included. */
export const securityHeaders: Readonly<Record<string, string>> = {
  "content-security-policy": contentPolicy,
  "x-content-type-options": "nosniff",
  "x-frame-options": "DENY",
  "referrer-policy": "no-referrer",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "cross-origin-embedder-policy": "require-corp",
  "permissions-policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
};
