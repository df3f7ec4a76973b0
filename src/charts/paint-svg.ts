/**
 * Paints a chart onto a canvas, element by element, as the page shows it now. A picture element could
 * not do it: the content policy allows no picture that is not a file, and would not know the page's face.
 *
 * Knows what our charts are made of: paths, lines, rectangles, circles and text, with plain colours.
 *
 * @param scale canvas pixels for one CSS pixel
 */
export function paintSvg(
  svg: SVGSVGElement,
  context: CanvasRenderingContext2D,
  scale: number,
): void {
  const toChart = svg.getScreenCTM()?.inverse();
  if (toChart === undefined) return;
  for (const element of svg.querySelectorAll<SVGGraphicsElement>("path,line,rect,circle,text")) {
    const onScreen = element.getScreenCTM();
    if (onScreen === null || element.closest("defs") !== null) continue;
    const { a, b, c, d, e, f } = toChart.multiply(onScreen);
    context.setTransform(a * scale, b * scale, c * scale, d * scale, e * scale, f * scale);
    const style = getComputedStyle(element);
    context.globalAlpha = Number(style.opacity);
    if (element instanceof SVGTextElement) paintText(element, style, context);
    else paintShape(pathOf(element), style, context);
  }
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.globalAlpha = 1;
}

function pathOf(element: SVGGraphicsElement): Path2D {
  const path = new Path2D();
  if (element instanceof SVGPathElement) return new Path2D(element.getAttribute("d") ?? "");
  if (element instanceof SVGLineElement) {
    path.moveTo(element.x1.baseVal.value, element.y1.baseVal.value);
    path.lineTo(element.x2.baseVal.value, element.y2.baseVal.value);
  } else if (element instanceof SVGRectElement) {
    const { x, y, width, height } = element;
    path.rect(x.baseVal.value, y.baseVal.value, width.baseVal.value, height.baseVal.value);
  } else if (element instanceof SVGCircleElement) {
    path.arc(element.cx.baseVal.value, element.cy.baseVal.value, element.r.baseVal.value, 0, 7);
  }
  return path;
}

function paintShape(path: Path2D, style: CSSStyleDeclaration, context: CanvasRenderingContext2D) {
  if (style.fill !== "none") {
    context.fillStyle = style.fill;
    withAlpha(context, style.fillOpacity, () => context.fill(path));
  }
  if (style.stroke === "none") return;
  context.strokeStyle = style.stroke;
  context.lineWidth = Number.parseFloat(style.strokeWidth);
  context.lineJoin = "round";
  const dashes = style.strokeDasharray;
  context.setLineDash(dashes === "none" ? [] : dashes.split(/[\s,]+/).map(Number.parseFloat));
  withAlpha(context, style.strokeOpacity, () => context.stroke(path));
  context.setLineDash([]);
}

function paintText(
  element: SVGTextElement,
  style: CSSStyleDeclaration,
  context: CanvasRenderingContext2D,
) {
  const lines = element.querySelectorAll("tspan");
  for (const line of lines.length > 0 ? lines : [element]) {
    const text = line.textContent ?? "";
    if (text.trim() === "" || line.getNumberOfChars() === 0) continue;
    // Where the first letter really stands: anchors and offsets are in it already.
    const { x, y } = line.getStartPositionOfChar(0);
    context.font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    context.textAlign = "left";
    context.textBaseline = "alphabetic";
    if (style.stroke !== "none" && style.paintOrder.startsWith("stroke")) {
      context.strokeStyle = style.stroke;
      context.lineWidth = Number.parseFloat(style.strokeWidth);
      context.lineJoin = "round";
      context.strokeText(text, x, y);
    }
    context.fillStyle = style.fill;
    context.fillText(text, x, y);
  }
}

function withAlpha(context: CanvasRenderingContext2D, share: string, paint: () => void): void {
  const before = context.globalAlpha;
  context.globalAlpha = before * Number(share);
  paint();
  context.globalAlpha = before;
}
