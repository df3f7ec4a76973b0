import { type ReactNode, useEffect } from "react";
import { I18nProvider } from "react-aria-components";
import { createBrowserRouter, Link, RouterProvider } from "react-router";
import { useSettings } from "../api/queries.ts";
import { Page } from "../parts/page.tsx";
import { BoardScreen } from "../screens/board/board-screen.tsx";
import { CardsScreen } from "../screens/cards/cards-screen.tsx";
import { GroupScreen } from "../screens/groups/group-screen.tsx";
import { GroupsScreen } from "../screens/groups/groups-screen.tsx";
import { PlanScreen } from "../screens/plan/plan-screen.tsx";
import { GroupProgressScreen } from "../screens/progress/group-progress-screen.tsx";
import { ProgressScreen } from "../screens/progress/progress-screen.tsx";
import { StudentProgressScreen } from "../screens/progress/student-progress-screen.tsx";
import { SessionScreen } from "../screens/session/session-screen.tsx";
import { SettingsScreen } from "../screens/settings/settings-screen.tsx";
import { TodayScreen } from "../screens/today/today-screen.tsx";
import { TextProvider, useSay } from "../text/text.tsx";
import { Frame } from "./frame.tsx";

function NotFound() {
  const say = useSay();
  return (
    <Page title={say("app.notFound")}>
      <Link to="/">{say("app.goToday")}</Link>
    </Page>
  );
}

const router = createBrowserRouter([
  {
    element: <Frame />,
    children: [
      { path: "/", element: <TodayScreen /> },
      { path: "/groups", element: <GroupsScreen /> },
      { path: "/groups/:groupId", element: <GroupScreen /> },
      { path: "/groups/:groupId/plans/:planId", element: <PlanScreen /> },
      { path: "/session/:sessionId", element: <SessionScreen /> },
      { path: "/session/:sessionId/cards", element: <CardsScreen /> },
      { path: "/progress", element: <ProgressScreen /> },
      { path: "/progress/:groupId", element: <GroupProgressScreen /> },
      { path: "/progress/:groupId/:studentId", element: <StudentProgressScreen /> },
      { path: "/settings", element: <SettingsScreen /> },
      { path: "*", element: <NotFound /> },
    ],
  },
  // The class board has no spine: nothing on it is the teacher's or personal.
  { path: "/board", element: <BoardScreen /> },
]);

/** Language and theme, then the screen that the address names. */
function Dressed({ children }: { children: ReactNode }) {
  const settings = useSettings();
  const language = settings?.language ?? "en";
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

export function App() {
  return (
    <Dressed>
      <RouterProvider router={router} />
    </Dressed>
  );
}
