import { useSearchParams } from "react-router";

/**
 * The parameters of the page's address, and the way to change some of them, by name. What is kept there
 * survives a reload and can be passed on as a link.
 */
export function useAddress(): [
  URLSearchParams,
  (changed: Readonly<Record<string, string>>) => void,
] {
  const [params, setParams] = useSearchParams();
  const change = (changed: Readonly<Record<string, string>>) => {
    // The address itself, not the one last drawn: of two quick changes the first would be lost.
    const now = new URLSearchParams(window.location.search);
    for (const [name, value] of Object.entries(changed)) now.set(name, value);
    setParams(now, { replace: true, preventScrollReset: true });
  };
  return [params, change];
}
