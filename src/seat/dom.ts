// The few things this page does with the document. It is built for browsers of ten years ago (see
// scripts/seats/target.ts), so it has no library and uses nothing that came later.

interface ElementFacts {
  readonly className?: string;
  readonly text?: string;
  readonly role?: string;
  readonly label?: string;
  readonly live?: "polite" | "assertive";
  readonly onPress?: () => void;
}

export function element(tag: string, facts: ElementFacts = {}, ...children: Node[]): HTMLElement {
  const made = document.createElement(tag);
  if (facts.className !== undefined) made.className = facts.className;
  if (facts.text !== undefined) made.textContent = facts.text;
  if (facts.role !== undefined) made.setAttribute("role", facts.role);
  if (facts.label !== undefined) made.setAttribute("aria-label", facts.label);
  if (facts.live !== undefined) made.setAttribute("aria-live", facts.live);
  if (facts.onPress !== undefined) made.addEventListener("click", facts.onPress);
  if (tag === "button") made.setAttribute("type", "button");
  for (const child of children) made.appendChild(child);
  return made;
}

export function button(text: string, className: string, onPress: () => void): HTMLButtonElement {
  return element("button", { text, className, onPress }) as HTMLButtonElement;
}

/** Shows something or takes it out of sight; its place stays, so that nothing pressable moves. */
export function show(what: HTMLElement, isShown: boolean): void {
  what.style.visibility = isShown ? "visible" : "hidden";
}

/** Puts one face of the page in the place of another. */
export function put(face: HTMLElement): void {
  const place = document.getElementById("seat");
  if (place === null) return;
  while (place.firstChild !== null) place.removeChild(place.firstChild);
  place.appendChild(face);
}

/** Text, where it changed: a reader says nothing twice. */
export function write(where: HTMLElement, text: string): void {
  if (where.textContent !== text) where.textContent = text;
}

const svg = "http://www.w3.org/2000/svg";

/** A drawing of strokes on a field of 48 by 48; what it means stands beside it in words, or in a label. */
export function drawing(className: string, ...paths: string[]): SVGElement {
  const made = document.createElementNS(svg, "svg");
  made.setAttribute("viewBox", "0 0 48 48");
  made.setAttribute("class", className);
  made.setAttribute("aria-hidden", "true");
  for (const path of paths) {
    const stroke = document.createElementNS(svg, "path");
    stroke.setAttribute("d", path);
    made.appendChild(stroke);
  }
  return made;
}
