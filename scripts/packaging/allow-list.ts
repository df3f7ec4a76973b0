import type { Architecture, Platform } from "./builder-files.ts";

const systemOf = { win: "win32", mac: "darwin", linux: "linux" };

/** The database's binaries that the app needs on a system; macOS gets one app for both processors. */
export function binariesFor(platform: Platform, architecture: Architecture): string[] {
  const processors = platform === "mac" ? ["arm64", "x64"] : [architecture];
  return processors.map(
    (processor) => `node_modules/better-sqlite3/prebuilds/${systemOf[platform]}-${processor}.node`,
  );
}

/** Each allows files, and wants one at least. */
const common = [
  /^package\.json$/,
  /^LICENSE$/,
  /^dist\/THIRD-PARTY\.txt$/,
  /^dist\/electron\/main\.js$/,
  /^dist\/electron\/preload\.cjs$/,
  /^dist\/app\/index\.html$/,
  /^dist\/app\/assets\/[\w.-]+\.js$/,
  /^dist\/app\/assets\/[\w.-]+\.css$/,
  /^dist\/app\/assets\/[\w.-]+\.(wav|svg|png)$/,
  /^dist\/app\/assets\/[\w.-]+\.woff2$/,
  /^dist\/seats\/index\.html$/,
  /^dist\/seats\/seat\.js$/,
  /^dist\/seats\/seat\.css$/,
  /^assets\/icon\.png$/,
  /^assets\/chimes\/\w+\.wav$/,
  /^node_modules\/better-sqlite3\/package\.json$/,
  /^node_modules\/better-sqlite3\/LICENSE$/,
  /^node_modules\/better-sqlite3\/lib\/([\w-]+\/)?[\w-]+\.js$/,
  /^node_modules\/libflacjs\/package\.json$/,
  /^node_modules\/libflacjs\/LICENSE$/,
  /^node_modules\/libflacjs\/dist\/libflac\.js$/,
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

/** What an installer of a system must hold and these files lack: binaries by name, the rest by pattern. */
export function missingFrom(
  files: readonly string[],
  platform: Platform,
  architecture: Architecture,
): string[] {
  return [
    ...binariesFor(platform, architecture).filter((binary) => !files.includes(binary)),
    ...common
      .filter((pattern) => !files.some((file) => pattern.test(file)))
      .map((pattern) => pattern.source),
  ];
}
