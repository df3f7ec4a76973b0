import { useEffect } from "react";
import { useConnection } from "../api/context.tsx";

/** The class screen's address in a window that may do more: it lays its own ticket aside first. */
export function TilesRoute() {
  const { api, swap } = useConnection();
  useEffect(() => {
    let isHere = true;
    void api.classScreen.enter({ here: false }).then(({ ticket }) => {
      if (isHere && ticket !== null) swap(ticket);
    });
    return () => {
      isHere = false;
    };
  }, [api, swap]);
  return <p role="status" />;
}
