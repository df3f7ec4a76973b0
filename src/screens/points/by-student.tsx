import { type KeyboardEvent, useRef } from "react";
import type { PointsState } from "../../../shared/api/points.ts";
import type { Privilege } from "../../../shared/roster/privilege.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";
import type { Buying } from "./use-buy.ts";

export interface ExchangeProps {
  students: readonly Student[];
  points: PointsState;
  buying: Buying;
}

/** What a student can have: what is not kept from them, cheapest first. */
function offersFor(
  privileges: readonly Privilege[],
  studentId: string,
  balance: number,
): { privilege: Privilege; canPay: boolean }[] {
  return privileges
    .filter(({ notFor }) => !notFor.includes(studentId))
    .map((privilege) => ({ privilege, canPay: privilege.price <= balance }))
    .sort((one, other) => Number(other.canPay) - Number(one.canPay));
}

/**
 * One line a student, with the privileges by their numbers. A press on one exchanges; on the keyboard its
 * digit does, and the arrows go from student to student.
 */
export function ByStudent({ students, points, buying }: ExchangeProps) {
  const say = useSay();
  const list = useRef<HTMLUListElement>(null);
  const move = (event: KeyboardEvent, at: number) => {
    const step = event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
    if (step === 0) return;
    event.preventDefault();
    list.current?.querySelectorAll<HTMLElement>(".points-row")[at + step]?.focus();
  };
  return (
    <>
      <p className="points-help">{say("points.byStudentHelp")}</p>
      <ol className="points-legend">
        {points.privileges.map(({ id, name, price }) => (
          <li key={id}>
            {name} <span className="points-price">{say("points.count", { points: price })}</span>
          </li>
        ))}
      </ol>
      <p role="status" className="points-last-line">
        {buying.last === null
          ? null
          : say("points.receipt", {
              name: buying.last.student.name,
              privilege: buying.last.privilege.name,
              points: buying.last.privilege.price,
            })}
      </p>
      <ul className="points-rows" ref={list}>
        {students.map((student, at) => {
          const balance =
            points.purses.find(({ studentId }) => studentId === student.id)?.balance ?? 0;
          const offers = offersFor(points.privileges, student.id, balance);
          const byDigit = (event: KeyboardEvent) => {
            if (event.repeat || !/^[1-9]$/.test(event.key)) return move(event, at);
            const privilege = points.privileges[Number(event.key) - 1];
            if (privilege !== undefined) buying.buy(student, privilege);
          };
          return (
            <li
              key={student.id}
              className="points-row"
              // biome-ignore lint/a11y/noNoninteractiveTabindex: the row itself takes digits and arrows
              tabIndex={0}
              onKeyDown={byDigit}
              aria-label={say("points.has", { name: student.name, points: balance })}
            >
              <span className="points-who">{student.name}</span>
              <span className="points-purse">{say("points.count", { points: balance })}</span>
              <span className="points-keys">
                {points.privileges.map((privilege, place) => {
                  const offer = offers.find((each) => each.privilege === privilege);
                  return offer === undefined ? (
                    <span key={privilege.id} className="points-key-gap" />
                  ) : (
                    <Button
                      key={privilege.id}
                      isDisabled={!offer.canPay}
                      excludeFromTabOrder
                      className="points-key"
                      aria-label={say("points.keyNamed", {
                        number: place + 1,
                        name: student.name,
                        privilege: privilege.name,
                        points: privilege.price,
                      })}
                      onPress={() => buying.buy(student, privilege)}
                    >
                      {place + 1}
                    </Button>
                  );
                })}
              </span>
            </li>
          );
        })}
      </ul>
    </>
  );
}
