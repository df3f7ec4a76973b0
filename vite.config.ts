import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

/** Where new versions can be fetched; a build that is told of no place shows no link. */
const releases = process.env.PEBBLECHIME_RELEASES ?? "";
if (releases !== "" && !releases.startsWith("https://")) {
  throw new Error(`PEBBLECHIME_RELEASES must be an https address; got ${releases}`);
}

export default defineConfig({
  root: "src",
  plugins: [react()],
  define: { __PEBBLECHIME_RELEASES__: JSON.stringify(releases) },
  // Both hosts serve the app from their root, and pages have addresses of more than one level.
  base: "/",
  // The words are half a megabyte: read as data they cost less than as code.
  json: { stringify: true, namedExports: false },
  build: {
    outDir: "../dist/app",
    emptyOutDir: true,
    // Electron 45 and any browser kept up to date.
    target: "chrome140",
    // The content policy allows files only, no data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    chunkSizeWarningLimit: 2_000,
    rolldownOptions: {
      output: {
        codeSplitting: {
          // Few files for the first page; screens that are opened later still come by themselves.
          groups: [
            // Its setting has to have run before the first schema of any chunk is made.
            { name: "zod", test: /node_modules\/zod\/|src\/app\/zod-without-code/ },
            { name: "libraries", test: /node_modules\// },
            { name: "words", test: /src\/text\// },
            { name: "shared", test: /\/shared\// },
          ],
        },
      },
    },
  },
  worker: { format: "es" },
});
