import "./app/zod-without-code.ts";
import "./parts/text-policy.ts";
import "@fontsource-variable/atkinson-hyperlegible-next";
import "./tokens.css";
import "./base.css";
import "./forced-colors.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { connect } from "./api/client.ts";
import { ConnectionProvider } from "./api/context.tsx";
import { takeInvitation } from "./api/ticket.ts";
import { App } from "./app/app.tsx";
import { openOwnTabs } from "./app/own-tabs.ts";
import { keepFocus } from "./parts/keep-focus.ts";
import { giveOwnChimes } from "./sound/chime-address.ts";

const root = document.getElementById("app");
if (root === null) throw new Error("index.html must hold an element with the id app");

takeInvitation();
// An address with an invitation, pasted into a tab that shows the app or was turned away, loads nothing new
// by itself.
window.addEventListener("hashchange", () => {
  if (takeInvitation()) window.location.reload();
});
// A page that the browser kept in its memory may show what its tab may see no longer.
window.addEventListener("pageshow", ({ persisted }) => {
  if (persisted) window.location.reload();
});

// The desktop app has no tabs.
if (window.pebblechime === undefined) openOwnTabs(window);

const link = connect();
giveOwnChimes(async (id) => (await link.api.chimes.sound({ id })).sound);
keepFocus(document);

createRoot(root).render(
  <StrictMode>
    <ConnectionProvider link={link}>
      <App />
    </ConnectionProvider>
  </StrictMode>,
);
