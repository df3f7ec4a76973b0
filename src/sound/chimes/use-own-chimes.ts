import { useAsk } from "../../api/queries.ts";

/** The chimes that the teacher brought; undefined until known. */
export const useOwnChimes = () => useAsk("settings", ["chimes"], (api) => api.chimes.list()).data;
