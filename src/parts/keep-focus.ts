/** What lies over the page and gives the focus back when it closes. */
const overlays = "[role=dialog], [role=alertdialog], [role=menu], [role=listbox]";
/** A place small enough to go on from: it takes the focus itself. */
const rows = "li, tr, [role=row], [role=group], fieldset, dialog, [role=dialog]";
/** A place that is told by its heading. */
const parts = "section, form, article, header, main, [role=region]";

/** An element around what had the focus, and what stood beside it. */
interface Around {
  readonly element: Element;
  readonly next: Element | null;
  readonly previous: Element | null;
}

/**
 * Keeps the focus near when what had it is gone, rests or is out of sight: the row that takes its place, or
 * the heading of the part that it stood in, so that keys and screen readers go on from there and never from
 * the top of the page. It goes to no button, so that a key pressed twice does nothing twice.
 *
 * Where somebody has left a control by pressing beside it, nothing has the focus, and that stays so.
 *
 * @returns ends it
 */
export function keepFocus(page: Document): () => void {
  /** Around what has the focus or had it last, nearest first; empty when it was left. */
  let last: readonly Around[] = [];
  /** The same of what had it before something came to lie over the page. */
  let beneath: readonly Around[] = [];
  /** Whether that lies over the page. */
  let isOver = false;
  let isLooking = false;

  const isLost = () => {
    const { activeElement } = page;
    if (!page.hasFocus() || last[0] === undefined) return false;
    if (activeElement === null || activeElement === page.body) return true;
    return activeElement === last[0].element && !canHaveFocus(activeElement);
  };
  const look = () => {
    if (isLooking || !isLost()) return;
    isLooking = true;
    // Whoever changed the page may know better where the focus belongs, and says so within a frame.
    afterFrames(2, () => {
      isLooking = false;
      if (!isLost()) return;
      const place = placeNear(last) ?? placeNear(beneath);
      if (place !== null) focusOn(place);
    });
  };
  const onFocusIn = ({ target }: FocusEvent) => {
    if (!(target instanceof Element) || target === page.body) return;
    const wasOver = isOver;
    isOver = target.closest(overlays) !== null;
    if (isOver && !wasOver) beneath = last;
    last = aroundOf(target);
  };
  const onFocusOut = ({ target, relatedTarget }: FocusEvent) => {
    if (relatedTarget !== null || !(target instanceof Element)) return;
    // What rests at this moment was not left, even if it can be pressed again by the next frame.
    const wasAble = canHaveFocus(target);
    afterFrames(1, () => {
      const isLeft = page.hasFocus() && page.activeElement === page.body;
      if (isLeft && wasAble && canHaveFocus(target)) last = [];
      else look();
    });
  };

  const changes = new MutationObserver(look);
  changes.observe(page.body, {
    subtree: true,
    childList: true,
    attributes: true,
    attributeFilter: ["disabled", "class", "hidden", "inert"],
  });
  page.addEventListener("focusin", onFocusIn);
  page.addEventListener("focusout", onFocusOut);
  return () => {
    changes.disconnect();
    page.removeEventListener("focusin", onFocusIn);
    page.removeEventListener("focusout", onFocusOut);
  };
}

/** Gives the focus to a place that is no control, and brings it into sight if it is not. */
export function focusOn(place: HTMLElement): void {
  if (!place.hasAttribute("tabindex")) place.tabIndex = -1;
  place.focus({ preventScroll: true });
  const { top, bottom } = place.getBoundingClientRect();
  if (bottom < 0 || top > window.innerHeight) place.scrollIntoView({ block: "nearest" });
}

/** Has a page that has just been shown read from its title; not where it has put the cursor itself. */
export function focusPage(page: HTMLElement): void {
  const { activeElement } = page.ownerDocument;
  if (activeElement !== page && page.contains(activeElement)) return;
  focusOn(page.querySelector<HTMLElement>("h1") ?? page);
}

function aroundOf(element: Element): Around[] {
  const around: Around[] = [];
  for (let each: Element | null = element; each !== null; each = each.parentElement) {
    const { nextElementSibling: next, previousElementSibling: previous } = each;
    around.push({ element: each, next, previous });
  }
  return around;
}

/** Where to go on from; null when nothing of it is left. */
function placeNear(around: readonly Around[]): HTMLElement | null {
  const [first] = around;
  if (first?.element instanceof HTMLElement && canHaveFocus(first.element)) return first.element;
  for (const [at, { element }] of around.entries()) {
    if (at === 0 || !isShown(element)) continue;
    const gone = around[at - 1];
    // What has come to stand where the lost one stood, or the one before it at the end.
    const beside =
      gone === undefined || isShown(gone.element)
        ? null
        : [gone.next, gone.previous].find(
            (each) => each?.parentElement === element && isShown(each) && each.matches(rows),
          );
    return beside instanceof HTMLElement ? beside : placeAbove(element);
  }
  return null;
}

function placeAbove(element: Element): HTMLElement | null {
  for (let each: Element | null = element; each !== null; each = each.parentElement) {
    if (!(each instanceof HTMLElement)) continue;
    if (each.matches(rows)) return each;
    if (!each.matches(parts)) continue;
    const heading = each.querySelector<HTMLElement>("h1, h2, h3");
    if (heading !== null) return heading;
    if (each.matches("main")) return each;
  }
  return null;
}

/** A page's body is no place. */
const isShown = (element: Element): boolean =>
  element.isConnected &&
  element.ownerDocument.body !== element &&
  element.ownerDocument.documentElement !== element &&
  element.checkVisibility({ visibilityProperty: true });

const canHaveFocus = (element: Element): boolean =>
  isShown(element) && !element.matches(":disabled, [inert] *");

function afterFrames(count: number, then: () => void): void {
  requestAnimationFrame(() => (count === 1 ? then() : afterFrames(count - 1, then)));
}
