import type { Architecture, Platform } from "./builder-files.ts";

const systemOf = { win: "win32", mac: "darwin", linux: "linux" };

/** The database's binaries that the app needs on a system; macOS gets one app for both processors. */
export function binariesFor(platform: Platform, architecture: Architecture): string[] {
  const processors = platform === "mac" ? ["arm64", "x64"] : [architecture];
  return processors.map(
    (processor) => `node_modules/better-sqlite3/prebuilds/${systemOf[platform]}-${processor}.node`,
  );
}

const common = [
  /^package\.json$/,
  /^LICENSE$/,
  /^dist\/THIRD-PARTY\.txt$/,
  /^dist\/electron\/(main\.js|preload\.cjs)$/,
  /^dist\/app\/index\.html$/,
  /^dist\/app\/assets\/[\w.-]+\.(js|css|wav|woff2|svg|png)$/,
  /^dist\/seats\/(index\.html|seat\.(js|css))$/,
  /^assets\/icon\.png$/,
  /^assets\/chimes\/\w+\.wav$/,
  /^node_modules\/better-sqlite3\/(package\.json|LICENSE)$/,
  /^node_modules\/better-sqlite3\/lib\/([\w-]+\/)?[\w-]+\.js$/,
  /^node_modules\/libflacjs\/(package\.json|LICENSE|dist\/libflac\.js)$/,
];

/** The files among these that nothing allows in an installer of a system. */
export function notAllowed(
  files: readonly string[],
  platform: Platform,
  architecture: Architecture,
): string[] {
  const binaries = binariesFor(platform, architecture);
  return files.filter(
    (file) => !binaries.includes(file) && !common.some((pattern) => pattern.test(file)),
  );
}
