// npm run parts: serves the page of all parts on this computer, with changes as you make them.
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { createServer } from "vite";

const server = await createServer({
  configFile: false,
  root: fileURLToPath(new URL(".", import.meta.url)),
  plugins: [react()],
  server: { host: "127.0.0.1", fs: { allow: [fileURLToPath(new URL("../..", import.meta.url))] } },
});
await server.listen();
server.printUrls();
