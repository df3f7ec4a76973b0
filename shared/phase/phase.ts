/** The conditions a stretch of days can be under, in the order a program usually takes them. */
export const phaseKinds = ["baseline", "intervention", "fading", "maintenance"] as const;
export type PhaseKind = (typeof phaseKinds)[number];
