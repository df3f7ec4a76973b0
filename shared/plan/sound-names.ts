import { type ChimeName, chimeNames, type OwnChime } from "./plan.ts";

/** The chimes that announce a session's begin and end, by file name without ending; never used as a cue. */
const announcementNames = ["begin", "end"] as const;
export type AnnouncementName = (typeof announcementNames)[number];

/** Every sound that ships with the app. */
export type ShippedSound = ChimeName | AnnouncementName;

/** Every sound that can be played: those, and the teacher's own chimes. */
export type SoundName = ShippedSound | OwnChime;

export const soundNames: readonly ShippedSound[] = [...chimeNames, ...announcementNames];
