import { type PhaseKind, phaseKinds } from "../phase/phase.ts";

/** A phase as a file names it. */
export interface NamedPhase {
  readonly kind: PhaseKind;
  readonly label: string;
}

/** Letters of a phase's label. */
const longestLabel = 60;

/**
 * Reads a phase from a file: it begins with its kind, in any capitals, and the rest is its label, as in
 * `fading every five minutes`. Undefined for anything else, and for a label that is too long.
 */
export function parsePhase(text: string): NamedPhase | undefined {
  const [word = ""] = text.toLowerCase().split(/[^a-z]/, 1);
  const kind = phaseKinds.find((each) => each === word);
  const label = text.slice(word.length).trim();
  return kind === undefined || label.length > longestLabel ? undefined : { kind, label };
}

/** The text that `parsePhase` reads the same phase from. */
export const writePhase = ({ kind, label }: NamedPhase): string =>
  label === "" ? kind : `${kind} ${label}`;

/**
 * The phase of a day as a file names it: its kind, then its label or, when it has none and is not the
 * first of its kind, its number. Empty before the first phase.
 *
 * @param phases first day first
 */
export function phaseText(
  phases: readonly (NamedPhase & { readonly startsOn: string })[],
  day: string,
): string {
  const at = phases.findLastIndex(({ startsOn }) => startsOn <= day);
  const phase = phases[at];
  if (phase === undefined) return "";
  const number = phases.slice(0, at + 1).filter(({ kind }) => kind === phase.kind).length;
  const label = phase.label === "" && number > 1 ? String(number) : phase.label;
  return writePhase({ kind: phase.kind, label });
}
