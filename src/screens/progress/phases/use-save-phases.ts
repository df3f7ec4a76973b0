import type { Phase } from "../../../../shared/phase/phase.ts";
import { useTell } from "../../../api/queries.ts";

/** Keeps the phases of one draw, all of them or none. */
export const useSavePhases = (groupId: string) =>
  useTell((api, phases: Omit<Phase, "id" | "groupId">[]) =>
    api.phases.createAll({ groupId, phases }),
  );
