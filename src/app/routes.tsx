import { Link, Outlet, type RouteObject } from "react-router";
import { CueSounder } from "../live/cue-sounder.tsx";
import { Frame } from "../live/frame.tsx";
import { SoundStateElsewhere } from "../live/sound-state.tsx";
import { Page } from "../parts/page.tsx";
import { TodayScreen } from "../screens/today/today-screen.tsx";
import { useSay } from "../text/text.tsx";
import { Crash } from "./crash.tsx";
import { screen } from "./screen.ts";

function NotFound() {
  const say = useSay();
  return (
    <Page title={say("app.notFound")}>
      <Link to="/">{say("app.goToday")}</Link>
    </Page>
  );
}

/** All that the app has an address for; tests walk this list, so that none can be forgotten. */
export const routes: RouteObject[] = [
  // A session that is under way keeps sounding on every page of the teacher's window, also while printing.
  {
    element: (
      <CueSounder audience="adult">
        <Outlet />
      </CueSounder>
    ),
    hydrateFallbackElement: <p role="status" />,
    errorElement: <Crash />,
    children: [
      {
        element: <Frame />,
        hydrateFallbackElement: <p role="status" />,
        errorElement: <Crash />,
        children: [
          {
            errorElement: <Crash />,
            children: [
              { path: "/", element: <TodayScreen /> },
              {
                path: "/groups",
                lazy: () =>
                  screen(() => import("../screens/groups/groups-screen.tsx"), "GroupsScreen"),
              },
              {
                path: "/groups/:groupId",
                lazy: () =>
                  screen(() => import("../screens/groups/group-screen.tsx"), "GroupScreen"),
              },
              {
                path: "/groups/:groupId/room",
                lazy: () => screen(() => import("../screens/groups/room-screen.tsx"), "RoomScreen"),
              },
              {
                path: "/groups/:groupId/students/:studentId/agreed",
                lazy: () =>
                  screen(() => import("../screens/home/agreed-screen.tsx"), "AgreedScreen"),
              },
              {
                path: "/groups/:groupId/students/:studentId/home-card",
                lazy: () =>
                  screen(() => import("../screens/home/home-card-screen.tsx"), "HomeCardScreen"),
              },
              {
                path: "/groups/:groupId/students/:studentId/contract",
                lazy: () =>
                  screen(() => import("../screens/home/contract-screen.tsx"), "ContractScreen"),
              },
              {
                path: "/groups/:groupId/home-cards",
                lazy: () =>
                  screen(() => import("../screens/home/home-cards-screen.tsx"), "HomeCardsScreen"),
              },
              {
                path: "/groups/:groupId/transfer",
                lazy: () =>
                  screen(() => import("../screens/transfer/transfer-screen.tsx"), "TransferScreen"),
              },
              {
                path: "/groups/:groupId/plans/:planId",
                lazy: () => screen(() => import("../screens/plan/plan-screen.tsx"), "PlanScreen"),
              },
              {
                path: "/groups/:groupId/observe",
                lazy: () =>
                  screen(
                    () => import("../screens/observe/start-observing-screen.tsx"),
                    "StartObservingScreen",
                  ),
              },
              {
                path: "/groups/:groupId/held",
                lazy: () => screen(() => import("../screens/held/held-screen.tsx"), "HeldScreen"),
              },
              {
                path: "/groups/:groupId/points",
                lazy: () =>
                  screen(() => import("../screens/points/points-screen.tsx"), "PointsScreen"),
              },
              {
                path: "/groups/:groupId/teams",
                lazy: () =>
                  screen(() => import("../screens/teams/teams-screen.tsx"), "TeamsScreen"),
              },
              {
                path: "/groups/:groupId/pairs",
                lazy: () =>
                  screen(() => import("../screens/pairs/pairs-screen.tsx"), "PairsScreen"),
              },
              {
                path: "/groups/:groupId/seats",
                lazy: () =>
                  screen(() => import("../screens/seats/seats-screen.tsx"), "SeatsScreen"),
              },
              {
                path: "/session/:sessionId/quick-totals",
                lazy: () =>
                  screen(
                    () => import("../screens/points/quick-totals-screen.tsx"),
                    "QuickTotalsScreen",
                  ),
              },
              {
                path: "/groups/:groupId/practice",
                lazy: () =>
                  screen(() => import("../screens/practice/practice-screen.tsx"), "PracticeScreen"),
              },
              {
                path: "/session/:sessionId",
                lazy: () => screen(() => import("./session-route.tsx"), "SessionRoute"),
              },
              {
                path: "/session/:sessionId/cards",
                lazy: () => screen(() => import("./cards-route.tsx"), "CardsRoute"),
              },
              {
                path: "/progress",
                lazy: () =>
                  screen(() => import("../screens/progress/progress-screen.tsx"), "ProgressScreen"),
              },
              {
                path: "/progress/:groupId",
                lazy: () =>
                  screen(
                    () => import("../screens/progress/group-progress-screen.tsx"),
                    "GroupProgressScreen",
                  ),
              },
              {
                path: "/progress/how-sure/:groupId",
                lazy: () =>
                  screen(() => import("../screens/progress/how-sure-screen.tsx"), "HowSureScreen"),
              },
              {
                path: "/progress/:groupId/:studentId",
                lazy: () =>
                  screen(
                    () => import("../screens/progress/student-progress-screen.tsx"),
                    "StudentProgressScreen",
                  ),
              },
              {
                path: "/settings",
                lazy: () =>
                  screen(() => import("../screens/settings/settings-screen.tsx"), "SettingsScreen"),
              },
              { path: "*", element: <NotFound /> },
            ],
          },
        ],
      },
      // What a child is shown has no spine: nothing beside it is another child's.
      {
        path: "/own/:groupId/:studentId",
        errorElement: <Crash />,
        lazy: () => screen(() => import("../screens/own/own-screen.tsx"), "OwnScreen"),
      },
      // Sheets in real size: nothing around them but the choices that belong to printing.
      {
        path: "/print",
        element: (
          <>
            <SoundStateElsewhere />
            <Outlet />
          </>
        ),
        errorElement: <Crash />,
        children: [
          {
            path: "cards/:groupId/:planId",
            lazy: () => screen(() => import("../print/cards-page.tsx"), "CardsPage"),
          },
          {
            path: "cue-key/:planId",
            lazy: () => screen(() => import("../print/cue-key-page.tsx"), "CueKeyPage"),
          },
          {
            path: "observation/:groupId/:planId",
            lazy: () => screen(() => import("../print/observation-page.tsx"), "ObservationPage"),
          },
          {
            path: "pairs/:groupId",
            lazy: () => screen(() => import("../print/pairs-page.tsx"), "PairsPage"),
          },
          {
            path: "agreed/:groupId/:studentId",
            lazy: () => screen(() => import("../print/home/agreed-page.tsx"), "AgreedPaper"),
          },
          {
            path: "teams/:groupId",
            lazy: () => screen(() => import("../print/teams-page.tsx"), "TeamsPage"),
          },
          {
            path: "contract/:groupId/:studentId",
            lazy: () => screen(() => import("../print/home/contract-page.tsx"), "ContractPaper"),
          },
          {
            path: "home-cards/:groupId",
            lazy: () => screen(() => import("../print/home/home-cards-page.tsx"), "HomeCardsPaper"),
          },
          {
            path: "home-week/:groupId",
            lazy: () => screen(() => import("../print/home/home-week-page.tsx"), "HomeWeekPaper"),
          },
          {
            path: "prices/:groupId",
            lazy: () => screen(() => import("../print/prices-page.tsx"), "PricesPage"),
          },
          {
            path: "slips/:groupId",
            lazy: () => screen(() => import("../print/slips-page.tsx"), "SlipsPage"),
          },
          {
            path: "seats/:groupId",
            lazy: () => screen(() => import("../print/seats/seat-slips-page.tsx"), "SeatSlipsPage"),
          },
          {
            path: "seats/:groupId/sheets",
            lazy: () =>
              screen(() => import("../print/seats/seat-sheets-page.tsx"), "SeatSheetsPage"),
          },
          {
            path: "report/:groupId/:studentId",
            lazy: () => screen(() => import("../print/report/report-page.tsx"), "ReportPage"),
          },
          {
            path: "first-week",
            lazy: () =>
              screen(() => import("../print/first-week/first-week-page.tsx"), "FirstWeekPage"),
          },
          {
            path: "own/:groupId",
            lazy: () => screen(() => import("../print/own/own-page.tsx"), "OwnPage"),
          },
          {
            path: "family/:groupId",
            lazy: () => screen(() => import("../print/family/family-page.tsx"), "FamilyPage"),
          },
          { path: "*", element: <NotFound /> },
        ],
      },
    ],
  },
  // The class board has no spine: nothing on it is the teacher's or personal.
  {
    path: "/board",
    element: (
      <CueSounder audience="class">
        <Outlet />
      </CueSounder>
    ),
    errorElement: <Crash />,
    hydrateFallbackElement: <p role="status" />,
    children: [
      {
        index: true,
        lazy: () => screen(() => import("../screens/board/board-screen.tsx"), "BoardScreen"),
      },
    ],
  },
  {
    path: "/tiles",
    errorElement: <Crash />,
    lazy: () => screen(() => import("./tiles-route.tsx"), "TilesRoute"),
  },
  {
    path: "/session/:sessionId/observe-second",
    errorElement: <Crash />,
    lazy: () =>
      screen(() => import("../screens/observe/second-observer-screen.tsx"), "SecondObserverScreen"),
  },
];
