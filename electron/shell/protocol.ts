import type { Protocol } from "electron";
import { appHost, appScheme } from "./address.ts";

/** Must run before the app is ready. Standard and secure: paths resolve and the page has a real origin. */
export function declareAppScheme(protocol: Protocol): void {
  protocol.registerSchemesAsPrivileged([
    {
      scheme: appScheme,
      privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true },
    },
  ]);
}

/**
 * Serves the app's own files, and nothing else, at `pebblechime://app/`.
 * @param serve answers a request for a path of the app
 */
export function serveApp(
  protocol: Protocol,
  serve: (request: Request) => Response | Promise<Response>,
): void {
  protocol.handle(appScheme, (request) => {
    const { host } = new URL(request.url);
    return host === appHost ? serve(request) : new Response("Not here.", { status: 404 });
  });
}
