import type { ChartWords } from "./save-chart.ts";

/** One small drawing of a sheet, with what stands over it. */
export interface SheetPart {
  readonly drawing: SVGSVGElement;
  readonly name: string;
  readonly note: string;
}

const columns = 4;
const part = { width: 240, height: 84, gap: 24, head: 22 };
const head = 58;

/**
 * Lays small drawings of one scale out as a single one, in their order, row by row, under a title and a
 * line of words. It is in the page only while `use` is at work, out of sight, because files are made
 * from what the page knows of a drawing.
 */
export async function withPictureSheet(
  parts: readonly SheetPart[],
  words: ChartWords,
  use: (sheet: SVGSVGElement) => void | Promise<void>,
): Promise<void> {
  const sheet = layOut(parts, words);
  document.body.append(sheet);
  try {
    await use(sheet);
  } finally {
    sheet.remove();
  }
}

function layOut(parts: readonly SheetPart[], { title, summary }: ChartWords): SVGSVGElement {
  // Few parts still leave the line of words its room.
  const across = columns * part.width + (columns - 1) * part.gap;
  const rows = Math.ceil(parts.length / columns);
  const rowHeight = part.head + part.height + part.gap;
  const size = { width: across, height: head + rows * rowHeight - part.gap };
  const sheet = made("svg", {
    ...size,
    viewBox: `0 0 ${size.width} ${size.height}`,
    class: "chart chart-sheet",
    "aria-hidden": "true",
  });
  sheet.append(
    textAt({ x: 0, y: 16, "font-weight": "600" }, title),
    textAt({ x: 0, y: 36, fill: "var(--ink-soft)" }, summary),
  );
  for (const [at, { drawing, name, note }] of parts.entries()) {
    const x = (at % columns) * (part.width + part.gap);
    const y = head + Math.floor(at / columns) * rowHeight;
    const group = made("g", { transform: `translate(${x} ${y + part.head})` });
    for (const child of drawing.children) group.append(child.cloneNode(true));
    sheet.append(
      textAt({ x, y: y + 14, "font-weight": "600" }, name),
      textAt({ x: x + part.width, y: y + 14, "text-anchor": "end", fill: "var(--ink-soft)" }, note),
      group,
    );
  }
  return sheet;
}

type Attributes = Readonly<Record<string, string | number>>;

const textAt = (attributes: Attributes, words: string): SVGElement => {
  const text = made("text", { fill: "var(--ink)", ...attributes });
  text.textContent = words;
  return text;
};

function made<Name extends "svg" | "g" | "text">(
  name: Name,
  attributes: Attributes,
): SVGElementTagNameMap[Name] {
  const element = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  return element;
}
