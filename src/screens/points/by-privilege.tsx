import { useState } from "react";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";
import { type ExchangeProps, offersFor } from "./by-student.tsx";

/** First the privilege, then a press on each name that takes it; who can pay comes first. */
export function ByPrivilege({ students, points, buying }: ExchangeProps) {
  const say = useSay();
  const [chosenId, setChosen] = useState<string | null>(null);
  const chosen = points.privileges.find(({ id }) => id === chosenId);
  const balanceOf = (id: string) =>
    points.purses.find(({ studentId }) => studentId === id)?.balance ?? 0;
  const takers = students
    .flatMap((student) =>
      offersFor(points.privileges, student.id, balanceOf(student.id))
        .filter(({ privilege }) => privilege.id === chosenId)
        .map(({ canPay }) => ({ student, canPay })),
    )
    .sort((one, other) => Number(other.canPay) - Number(one.canPay));
  return (
    <>
      <div className="points-offers" role="group" aria-label={say("points.privileges")}>
        {points.privileges.map((privilege) => (
          <Button
            key={privilege.id}
            look={privilege.id === chosenId ? "main" : "plain"}
            aria-pressed={privilege.id === chosenId}
            onPress={() => setChosen(privilege.id)}
          >
            {privilege.name} <span className="points-price">{privilege.price}</span>
          </Button>
        ))}
      </div>
      {chosen === undefined ? (
        <p className="points-help">{say("points.choosePrivilege")}</p>
      ) : (
        <div className="points-offers" role="group" aria-label={chosen.name}>
          {takers.map(({ student, canPay }) => (
            <Button
              key={student.id}
              isDisabled={!canPay}
              aria-label={say("points.takerNamed", {
                name: student.name,
                balance: balanceOf(student.id),
                privilege: chosen.name,
                points: chosen.price,
              })}
              onPress={() => buying.buy(student, chosen)}
            >
              {student.name} <span className="points-price">{balanceOf(student.id)}</span>
            </Button>
          ))}
        </div>
      )}
    </>
  );
}
