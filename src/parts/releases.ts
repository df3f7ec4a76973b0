declare const __PEBBLECHIME_RELEASES__: string | undefined;

/**
 * Where new versions can be fetched, as the build was told (PEBBLECHIME_RELEASES, an https address); null
 * where nobody said. The app itself asks nothing there: a press opens it in the browser.
 */
export const releasesAddress: string | null =
  typeof __PEBBLECHIME_RELEASES__ === "string" && __PEBBLECHIME_RELEASES__.startsWith("https://")
    ? __PEBBLECHIME_RELEASES__
    : null;
