import { useState } from "react";

const key = "pebblechime.names-shown";

/** Whether the adult has chosen that names stand in this window; kept until the window closes. */
export function useNamesShown(): [boolean, (shown: boolean) => void] {
  const [shown, setShown] = useState(() => sessionStorage.getItem(key) === "yes");
  const choose = (wanted: boolean) => {
    sessionStorage.setItem(key, wanted ? "yes" : "no");
    setShown(wanted);
  };
  return [shown, choose];
}
