import { useEffect, useState } from "react";

/** The words are away for so long before they stand, so that the same words are read out again, in ms. */
const awayMs = 100;

/**
 * Says to those who hear the screen that something was done. Gives the region to mount, once, and the way
 * to say something in it.
 */
export function useAnnouncer(): { region: React.ReactNode; announce: (text: string) => void } {
  const [wanted, setWanted] = useState({ text: "", count: 0 });
  const [said, setSaid] = useState("");
  useEffect(() => {
    setSaid("");
    if (wanted.text === "") return;
    const timer = setTimeout(() => setSaid(wanted.text), awayMs);
    return () => clearTimeout(timer);
  }, [wanted]);
  return {
    region: (
      <p className="only-for-readers" role="status">
        {said}
      </p>
    ),
    announce: (text) => setWanted(({ count }) => ({ text, count: count + 1 })),
  };
}
