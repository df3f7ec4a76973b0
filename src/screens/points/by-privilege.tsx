import { useState } from "react";
import { cheapestFirst } from "../../../shared/points/cheapest-first.ts";
import type { Privilege } from "../../../shared/roster/privilege.ts";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";
import type { ExchangeProps } from "./by-student.tsx";

/** The privilege whose takers are pressed, and their order when it was chosen: later nobody's place moves. */
interface Chosen {
  readonly privilegeId: string;
  readonly order: readonly string[];
}

/** First the privilege, then a press on each name that takes it; who can pay comes first. */
export function ByPrivilege({ students, points, buying }: ExchangeProps) {
  const say = useSay();
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const privilege = points.privileges.find(({ id }) => id === chosen?.privilegeId);
  const balanceOf = (id: string) =>
    points.purses.find(({ studentId }) => studentId === id)?.balance ?? 0;
  const choose = ({ id, price, notFor }: Privilege) => {
    const canPay = (studentId: string) => Number(balanceOf(studentId) >= price);
    const order = students
      .map((student) => student.id)
      .filter((studentId) => !notFor.includes(studentId))
      .sort((one, other) => canPay(other) - canPay(one));
    setChosen({ privilegeId: id, order });
  };
  const takers = (chosen?.order ?? []).flatMap(
    (id) => students.find((student) => student.id === id) ?? [],
  );
  return (
    <>
      <div className="points-offers" role="group" aria-label={say("points.privileges")}>
        {cheapestFirst(points.privileges).map((each) => (
          <Button key={each.id} aria-pressed={each === privilege} onPress={() => choose(each)}>
            {each.name} <span className="points-price">{each.price}</span>
          </Button>
        ))}
      </div>
      {privilege === undefined ? (
        <p className="points-help">{say("points.choosePrivilege")}</p>
      ) : (
        <div className="points-offers" role="group" aria-label={privilege.name}>
          {takers.map((student) => (
            <Button
              key={student.id}
              isDisabled={balanceOf(student.id) < privilege.price}
              aria-label={say("points.takerNamed", {
                name: student.name,
                balance: balanceOf(student.id),
                privilege: privilege.name,
                points: privilege.price,
              })}
              onPress={() => buying.buy(student, privilege)}
            >
              {student.name} <span className="points-price">{balanceOf(student.id)}</span>
            </Button>
          ))}
        </div>
      )}
    </>
  );
}
