import { type ReactNode, useEffect } from "react";
import { I18nProvider } from "react-aria-components";
import { createBrowserRouter, RouterProvider } from "react-router";
import { useConnection } from "../api/context.tsx";
import { useSettings } from "../api/queries.ts";
import { Announcer } from "../parts/announcer.tsx";
import type { Language } from "../text/catalogue.ts";
import { TextProvider } from "../text/text.tsx";
import { Barred } from "./barred.tsx";
import { Crash } from "./crash.tsx";
import { routes } from "./routes.tsx";
import { screen } from "./screen.ts";

const router = createBrowserRouter(routes);

let madeClassRouter: ReturnType<typeof createBrowserRouter> | null = null;

/** The class screen under every address: there is nowhere else to go. */
function classRouter() {
  madeClassRouter ??= createBrowserRouter([
    {
      path: "*",
      errorElement: <Crash />,
      hydrateFallbackElement: <p role="status" />,
      lazy: () => screen(() => import("./class-route.tsx"), "ClassRoute"),
    },
  ]);
  return madeClassRouter;
}

/** Language and theme, then the screen that the address names. */
function Dressed({ children }: { children: ReactNode }) {
  const settings = useSettings();
  const language = settings?.language ?? browserLanguage();
  const theme = settings?.theme ?? "system";
  useEffect(() => {
    document.documentElement.lang = language;
    document.documentElement.dataset.theme = theme;
  }, [language, theme]);
  return (
    <TextProvider language={language}>
      <I18nProvider locale={language}>{children}</I18nProvider>
    </TextProvider>
  );
}

/** Until the teacher's own choice is known, and where it never will be. */
const browserLanguage = (): Language => (navigator.language.startsWith("es") ? "es" : "en");

export function App() {
  const { state, scope } = useConnection();
  return (
    <Dressed>
      <Announcer />
      {state === "barred" ? (
        <Barred />
      ) : (
        // On the class screen whatever the address says.
        <RouterProvider router={scope === "class" ? classRouter() : router} />
      )}
    </Dressed>
  );
}
