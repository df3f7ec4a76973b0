/* Runs in the page: it may name nothing outside itself. */

/**
 * Where a page has no room for its words: text that is cut off, text that runs out of its button or its
 * sheet, things to press that lie over one another, and a page that scrolls sideways.
 */
export function lackOfRoom(): string[] {
  for (const more of document.querySelectorAll("details")) more.open = true;
  const found = new Set<string>();
  const shown = (element: Element) =>
    element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const called = (element: Element) =>
    `${element.localName}.${element.getAttribute("class") ?? ""} "${(element.textContent ?? "").trim().slice(0, 60)}"`;
  const boxOf = (element: Element) => {
    const { left, top, right, bottom } = element.getBoundingClientRect();
    return { left, top, right, bottom };
  };
  const inside = (element: Element) => {
    const box = element.getBoundingClientRect();
    return {
      left: box.left + element.clientLeft,
      top: box.top + element.clientTop,
      right: box.right - (box.width - element.clientWidth - element.clientLeft),
      bottom: box.bottom - (box.height - element.clientHeight - element.clientTop),
    };
  };
  const above = (element: Element) => {
    const all: Element[] = [];
    for (let each = element.parentElement; each !== null; each = each.parentElement) all.push(each);
    return all;
  };
  const pressed = "a[href], button, summary, label, [role=menuitem], [role=tab], [role=option]";

  // A letter's box is higher than the letter: a quarter of it may be cut without a mark.
  const isCut = (
    text: DOMRect,
    box: { left: number; top: number; right: number; bottom: number },
  ) =>
    text.left < box.left - 1 ||
    text.right > box.right + 1 ||
    text.top < box.top - text.height / 4 ||
    text.bottom > box.bottom + text.height / 4;

  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
    const holder = text.parentElement;
    if (holder === null || (text.nodeValue ?? "").trim() === "" || !shown(holder)) continue;
    if (holder.closest(".only-for-readers, [inert]") !== null) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    const boxes = [...range.getClientRects()].filter(({ width, height }) => width * height > 0);
    for (const around of [holder, ...above(holder)]) {
      if (around === document.body) break;
      const { overflowX, overflowY, display } = getComputedStyle(around);
      if (/auto|scroll/.test(`${overflowX} ${overflowY}`)) break;
      const hides = /hidden|clip/.test(`${overflowX} ${overflowY}`);
      const isSvg = around instanceof SVGElement;
      const box = isSvg ? boxOf(around) : inside(around);
      const holds = around.matches(pressed) && !display.startsWith("inline") && !isSvg;
      if (!hides && !holds && !around.matches(".sheet")) continue;
      if (isSvg && !hides) continue;
      // Papers of one sheet are measured for the languages there are, by the journeys of printing.
      if (!hides && !holds) box.bottom = Number.POSITIVE_INFINITY;
      if (boxes.some((each) => isCut(each, box))) {
        found.add(
          `cut by ${called(around).slice(0, 60)}: ${(text.nodeValue ?? "").trim().slice(0, 60)}`,
        );
      }
    }
  }

  // What is on show of each thing to press: scrolled away, it is covered rightly.
  const floats = (element: Element) =>
    [element, ...above(element)].find((each) =>
      /sticky|fixed/.test(getComputedStyle(each).position),
    );
  const controls = [...document.querySelectorAll(`${pressed}, input, textarea`)]
    .filter((each) => shown(each) && each.closest("[aria-hidden=true], [inert]") === null)
    .map((element) => {
      const within = above(element)
        .filter((each) => getComputedStyle(each).overflow !== "visible")
        .map(inside);
      const boxes = [...element.getClientRects()].map((box) => ({
        left: Math.max(box.left, ...within.map(({ left }) => left)),
        top: Math.max(box.top, ...within.map(({ top }) => top)),
        right: Math.min(box.right, ...within.map(({ right }) => right)),
        bottom: Math.min(box.bottom, ...within.map(({ bottom }) => bottom)),
      }));
      return { element, floor: floats(element), boxes };
    });
  controls.forEach((one, at) => {
    for (const other of controls.slice(at + 1)) {
      if (one.floor !== other.floor) continue;
      if (one.element.contains(other.element) || other.element.contains(one.element)) continue;
      const over = one.boxes.some((a) =>
        other.boxes.some(
          (b) =>
            Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 &&
            Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1,
        ),
      );
      if (over) found.add(`${called(one.element)} lies over ${called(other.element)}`);
    }
  });

  const { scrollWidth, clientWidth } = document.documentElement;
  if (scrollWidth > clientWidth) found.add(`scrolls sideways: ${scrollWidth} of ${clientWidth}`);
  return [...found];
}
