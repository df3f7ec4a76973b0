/** Why the certificate for an encrypted line to seats cannot be used. */
export const certificateProblems = [
  "unreadable",
  "incomplete",
  "unclear",
  "locked",
  "otherKey",
  "selfSigned",
  "notYet",
  "expired",
  "nameless",
] as const;
export type CertificateProblem = (typeof certificateProblems)[number];
