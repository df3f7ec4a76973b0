import { paintSvg } from "./paint-svg.ts";

/** What a saved chart carries along: its name, and what it says in words. */
export interface ChartWords {
  readonly title: string;
  readonly summary: string;
}

/** Attributes that take over from the page's style sheet, which a saved file has not. */
const kept = [
  "fill",
  "fill-opacity",
  "stroke",
  "stroke-opacity",
  "stroke-width",
  "stroke-dasharray",
  "opacity",
  "font-family",
  "font-size",
  "font-weight",
  "text-anchor",
  "paint-order",
] as const;

/** Sharp enough for print at the size at which charts are shown. */
const pngScale = 3;
const margin = 12;

/** Saves a chart as an SVG file that needs nothing else; always ink on paper. */
export function saveSvg(svg: SVGSVGElement, words: ChartWords): void {
  const text = inInkOnPaper(svg, () => standaloneSvg(svg, words));
  download(new Blob([text], { type: "image/svg+xml" }), `${fileName(words.title)}.svg`);
}

/** Saves a chart as a PNG picture; always ink on paper. Rejects when the picture cannot be made. */
export async function savePng(svg: SVGSVGElement, words: ChartWords): Promise<void> {
  const { width, height } = svg.getBoundingClientRect();
  const canvas = document.createElement("canvas");
  canvas.width = Math.ceil((width + 2 * margin) * pngScale);
  canvas.height = Math.ceil((height + 2 * margin) * pngScale);
  const context = canvas.getContext("2d");
  if (context === null) throw new Error("No picture can be drawn here.");
  const chart = document.createElement("canvas");
  chart.width = canvas.width;
  chart.height = canvas.height;
  const inner = chart.getContext("2d");
  if (inner === null) throw new Error("No picture can be drawn here.");
  inInkOnPaper(svg, () => {
    context.fillStyle = paperOf(svg);
    context.fillRect(0, 0, canvas.width, canvas.height);
    paintSvg(svg, inner, pngScale);
  });
  context.drawImage(chart, margin * pngScale, margin * pngScale);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/png"));
  if (blob === null) throw new Error("The picture could not be made.");
  download(blob, `${fileName(words.title)}.png`);
}

/** Does something while the chart has its daytime colours; nothing is painted in between. */
function inInkOnPaper<Made>(svg: SVGSVGElement, make: () => Made): Made {
  const before = svg.style.colorScheme;
  svg.style.colorScheme = "light";
  try {
    return make();
  } finally {
    svg.style.colorScheme = before;
  }
}

/** The colour of the leaf below the chart, as a plain colour. */
function paperOf(svg: SVGSVGElement): string {
  const before = svg.style.backgroundColor;
  svg.style.backgroundColor = "var(--leaf)";
  const colour = getComputedStyle(svg).backgroundColor;
  svg.style.backgroundColor = before;
  return colour;
}

function standaloneSvg(svg: SVGSVGElement, { title, summary }: ChartWords): string {
  const copy = svg.cloneNode(true);
  if (!(copy instanceof SVGSVGElement)) throw new Error("A chart is an SVG element.");
  const originals = [svg, ...svg.querySelectorAll("*")];
  [copy, ...copy.querySelectorAll("*")].forEach((element, at) => {
    const original = originals[at];
    if (original === undefined) return;
    const style = getComputedStyle(original);
    for (const name of kept) element.setAttribute(name, style.getPropertyValue(name));
    element.removeAttribute("class");
    element.removeAttribute("style");
  });
  for (const shown of copy.querySelectorAll("[data-reader]")) shown.remove();
  const { width, height } = svg.getBoundingClientRect();
  const box = { x: -margin, y: -margin, width: width + 2 * margin, height: height + 2 * margin };
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  copy.setAttribute("viewBox", `${box.x} ${box.y} ${box.width} ${box.height}`);
  copy.setAttribute("width", String(box.width));
  copy.setAttribute("height", String(box.height));
  copy.removeAttribute("aria-hidden");
  copy.setAttribute("role", "img");
  const paper = element("rect");
  for (const [name, value] of Object.entries(box)) paper.setAttribute(name, String(value));
  paper.setAttribute("fill", paperOf(svg));
  copy.prepend(element("title", title), element("desc", summary), paper);
  return new XMLSerializer().serializeToString(copy);
}

function element(name: string, text = ""): SVGElement {
  const made = document.createElementNS("http://www.w3.org/2000/svg", name);
  made.textContent = text;
  return made;
}

function download(blob: Blob, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  // The download has its own hold on the data after the press.
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** Letters and digits of any language, words joined by hyphens. */
const fileName = (title: string): string =>
  title
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 80) || "chart";
