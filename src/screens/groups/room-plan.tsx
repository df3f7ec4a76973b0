import { Button, GridList, GridListItem, useDragAndDrop } from "react-aria-components";
import { mostSeatsInRow } from "../../../shared/api/app.ts";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import { useSaveSettings, useSettings } from "../../api/queries.ts";
import { Picture } from "../../class/pictures/picture.tsx";
import { pictureNamed } from "../../class/pictures/picture-names.ts";
import { seatsStyle, useSeatsInRow } from "../../live/tiles/use-seats.ts";
import { Pick } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

interface RoomPlanProps {
  group: Group;
  students: readonly Student[];
  /** Ids of all students in their new order. */
  onOrder: (ids: string[]) => void;
}

/**
 * The room as the tiles show it, row by row from the front. A student is moved to another seat by dragging,
 * with the mouse, a finger or the keyboard.
 */
export function RoomPlan({ group, students, onOrder }: RoomPlanProps) {
  const say = useSay();
  const inRow = useSeatsInRow(group.id);
  const { dragAndDropHooks } = useDragAndDrop({
    getItems: (keys) => [...keys].map((key) => ({ "text/plain": String(key) })),
    onReorder({ keys, target }) {
      const taken = new Set([...keys].map(String));
      onOrder(
        movedBeside(
          students.map(({ id }) => id),
          taken,
          String(target.key),
          target.dropPosition === "after" ? 1 : 0,
        ),
      );
    },
  });
  return (
    <div className="groups-room">
      <SeatsInRow group={group} inRow={inRow} />
      <p id="groups-room-help" className="groups-hint">
        {say("seats.help")}
      </p>
      <p className="groups-front">{say("seats.front")}</p>
      <GridList
        aria-label={say("seats.plan")}
        aria-describedby="groups-room-help"
        className={inRow === null ? "groups-seats" : "groups-seats groups-seat-rows"}
        style={seatsStyle(inRow)}
        layout="grid"
        items={students.map((student) => ({ ...student }))}
        dragAndDropHooks={dragAndDropHooks}
      >
        {({ id, name, picture }) => {
          const drawn = pictureNamed(picture);
          return (
            <GridListItem id={id} textValue={name} className="groups-seat">
              <Button slot="drag" className="groups-grip" aria-label={say("seats.drag", { name })}>
                <span aria-hidden="true">⠿</span>
              </Button>
              {drawn === null ? null : <Picture name={drawn} />}
              <span className="groups-seat-name">{name}</span>
            </GridListItem>
          );
        }}
      </GridList>
    </div>
  );
}

/** The ids with the taken ones together before or after another, each in its old order. */
export function movedBeside(
  ids: readonly string[],
  taken: ReadonlySet<string>,
  target: string,
  offset: 0 | 1,
): string[] {
  if (taken.has(target)) return [...ids];
  const rest = ids.filter((id) => !taken.has(id));
  const at = rest.indexOf(target) + offset;
  return [...rest.slice(0, at), ...ids.filter((id) => taken.has(id)), ...rest.slice(at)];
}

const automatic = "auto";

function SeatsInRow({ group, inRow }: { group: Group; inRow: number | null }) {
  const say = useSay();
  const settings = useSettings();
  const save = useSaveSettings();
  const counts = Array.from({ length: mostSeatsInRow }, (_, index) => String(index + 1));
  const choose = (chosen: string) => {
    const { [group.id]: _, ...others } = settings?.seatsInRow ?? {};
    save.mutate({
      seatsInRow: chosen === automatic ? others : { ...others, [group.id]: Number(chosen) },
    });
  };
  return (
    <>
      <Pick
        label={say("seats.inRow")}
        help={say("seats.inRowHelp")}
        value={inRow === null ? automatic : String(inRow)}
        onChange={choose}
        choices={[
          { value: automatic, label: say("seats.automatic") },
          ...counts.map((count) => ({ value: count, label: count })),
        ]}
      />
      <Problem error={save.error} />
    </>
  );
}
