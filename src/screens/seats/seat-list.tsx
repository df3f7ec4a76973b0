import { useNavigate } from "react-router";
import type { Seat } from "../../../shared/api/seats.ts";
import { seatLanguages, seatLooks } from "../../../shared/seats/message.ts";
import { useStudents, useTell } from "../../api/queries.ts";
import { wordMissed } from "../../class/seats/missed-cues.ts";
import { Button } from "../../parts/button.tsx";
import { Pick } from "../../parts/field.tsx";
import { Menu } from "../../parts/menu.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

interface SeatListProps {
  groupId: string;
  seats: readonly Seat[];
}

/** Each seat with its student, what its device is at, and what it can do. */
export function SeatList({ groupId, seats }: SeatListProps) {
  const say = useSay();
  const add = useTell((api) => api.seats.add({ groupId }));
  return (
    <>
      {seats.length === 0 ? (
        <p>{say("seat.none")}</p>
      ) : (
        <ul className="seats-rows">
          {seats.map((seat) => (
            <SeatRow key={seat.id} seat={seat} />
          ))}
        </ul>
      )}
      <div>
        <Button isDisabled={add.isPending} onPress={() => add.mutate(undefined)}>
          {say("seat.add")}
        </Button>
      </div>
      <Problem error={add.error} />
    </>
  );
}

const nobody = "nobody";

function SeatRow({ seat }: { seat: Seat }) {
  const say = useSay();
  const navigate = useNavigate();
  const { id: seatId, number, studentId, language, look, groupId } = seat;
  const students = useStudents(groupId).data ?? [];
  const tie = useTell((api, whose: string | null) => api.seats.tie({ seatId, studentId: whose }));
  const dress = useTell((api, as: Partial<Seat>) =>
    api.seats.dress({ seatId, language: as.language ?? language, look: as.look ?? look }),
  );
  const free = useTell((api) => api.seats.free({ seatId }));
  const voidSlip = useTell((api) => api.seats.voidSlip({ seatId }));
  const remove = useTell((api) => api.seats.remove({ seatId }));
  const entries = [
    ...(seat.joined
      ? [{ id: "free", label: say("seat.free"), onPress: () => free.mutate(undefined) }]
      : []),
    {
      id: "slip",
      label: say("seat.newSlip"),
      onPress: () => navigate(`/print/seats/${groupId}?seat=${seatId}`),
    },
    ...(seat.hasSlip
      ? [{ id: "void", label: say("seat.void"), onPress: () => voidSlip.mutate(undefined) }]
      : []),
    {
      id: "remove",
      label: say("seat.remove"),
      isDanger: true,
      onPress: () => remove.mutate(undefined),
    },
  ];
  return (
    <li className="seats-row">
      <strong className="seats-number">{number}</strong>
      <Pick
        label={say("seat.studentOf", { number })}
        value={studentId ?? nobody}
        choices={[
          { value: nobody, label: say("seat.nobody") },
          ...students.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChange={(chosen) => tie.mutate(chosen === nobody ? null : chosen)}
      />
      <SeatStanding seat={seat} />
      <Pick
        label={say("seat.languageOf", { number })}
        value={language}
        choices={seatLanguages.map((value) => ({
          value,
          label: say(`settings.language.${value}`),
        }))}
        onChange={(chosen) => dress.mutate({ language: chosen })}
      />
      <Pick
        label={say("seat.lookOf", { number })}
        value={look}
        choices={seatLooks.map((value) => ({ value, label: say(`seat.look.${value}`) }))}
        onChange={(chosen) => dress.mutate({ look: chosen })}
      />
      <Menu label={say("seat.more", { number })} entries={entries} />
      <Problem error={tie.error ?? dress.error ?? free.error ?? voidSlip.error ?? remove.error} />
    </li>
  );
}

function SeatStanding({ seat }: { seat: Seat }) {
  const say = useSay();
  const { joined, asleep, hasSlip, carriers, missed } = seat;
  const state = asleep ? "asleep" : joined ? "joined" : hasSlip ? "gone" : "noSlip";
  return (
    <span className={`seats-state seats-state-${state}`}>
      <span>{say(`seat.state.${state}`)}</span>
      {joined ? (
        <span className="seats-does">
          {carriers.map((each) => say(`seat.does.${each}`)).join(", ")}
        </span>
      ) : null}
      {missed.length > 0 ? <span className="seats-does">{wordMissed(say, missed)}</span> : null}
    </span>
  );
}
