import "./zod-without-code.ts";
import "@fontsource-variable/atkinson-hyperlegible-next";
import "./tokens.css";
import "./base.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { connect } from "./api/client.ts";
import { ConnectionProvider } from "./api/context.tsx";
import { App } from "./app/app.tsx";

const root = document.getElementById("app");
if (root === null) throw new Error("index.html must hold an element with the id app");

createRoot(root).render(
  <StrictMode>
    <ConnectionProvider link={connect()}>
      <App />
    </ConnectionProvider>
  </StrictMode>,
);
