import { type ChimeName, chimeNames } from "./plan.ts";

/** The chimes that announce a session's begin and end, by file name without ending; never used as a cue. */
export const announcementNames = ["begin", "end"] as const;
export type AnnouncementName = (typeof announcementNames)[number];

/** Every sound that ships with the app. */
export type SoundName = ChimeName | AnnouncementName;
export const soundNames: readonly SoundName[] = [...chimeNames, ...announcementNames];
