import { type KeyboardEvent, useRef } from "react";
import type { PointsState } from "../../../shared/api/points.ts";
import type { Privilege } from "../../../shared/roster/privilege.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";
import type { Buying } from "./use-buy.ts";

/** More privileges than this have no digit of their own. */
const digits = 9;

export interface ExchangeProps {
  students: readonly Student[];
  points: PointsState;
  buying: Buying;
}

/** What a student can have: what is not kept from them, cheapest first. */
export function offersFor(
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
 * One row a student. A press on a privilege exchanges; on the keyboard the digit of the privilege does, and
 * the arrows go from student to student.
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
              <span className="points-offers">
                {offers.map(({ privilege, canPay }) => (
                  <Button
                    key={privilege.id}
                    look={canPay ? "plain" : "quiet"}
                    isDisabled={!canPay}
                    excludeFromTabOrder
                    aria-label={say("points.buyNamed", {
                      name: student.name,
                      privilege: privilege.name,
                      points: privilege.price,
                    })}
                    onPress={() => buying.buy(student, privilege)}
                  >
                    <Digit at={points.privileges.indexOf(privilege)} />
                    {privilege.name} <span className="points-price">{privilege.price}</span>
                  </Button>
                ))}
              </span>
            </li>
          );
        })}
      </ul>
    </>
  );
}

const Digit = ({ at }: { at: number }) => (at < digits ? <kbd>{at + 1}</kbd> : null);
