/**
 * Opens links that are pressed with a key or the middle button, and so are wanted in a tab of their own.
 * A browser would give that tab nothing of what this one keeps, and it would not be let in; a tab that the
 * page opens takes it over.
 *
 * @param page the page's window
 */
export function openOwnTabs(page: Window): void {
  const open = (event: MouseEvent) => {
    const link = event.target instanceof Element ? event.target.closest("a") : null;
    if (link === null || event.defaultPrevented || !isWantedApart(event)) return;
    if (link.origin !== page.location.origin || link.hasAttribute("download")) return;
    event.preventDefault();
    page.open(link.href);
  };
  page.addEventListener("click", open);
  page.addEventListener("auxclick", open);
}

function isWantedApart({ button, ctrlKey, metaKey, shiftKey }: MouseEvent): boolean {
  return button === 1 || (button === 0 && (ctrlKey || metaKey || shiftKey));
}
