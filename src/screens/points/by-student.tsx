import { type KeyboardEvent, useRef } from "react";
import type { PointsState } from "../../../shared/api/points.ts";
import { cheapestFirst } from "../../../shared/points/cheapest-first.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";
import type { Buying } from "./use-buy.ts";

export interface ExchangeProps {
  students: readonly Student[];
  points: PointsState;
  buying: Buying;
}

/**
 * One line a student, with the privileges by their numbers. A press on one exchanges; on the keyboard its
 * digit does, and the arrows go from student to student.
 */
export function ByStudent({ students, points, buying }: ExchangeProps) {
  const say = useSay();
  // Cheapest first: so for every student what can be had comes first, and no number ever moves.
  const privileges = cheapestFirst(points.privileges);
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
        {privileges.map(({ id, name, price }) => (
          <li key={id}>
            {name} <span className="points-price">{say("points.count", { points: price })}</span>
          </li>
        ))}
      </ol>
      <ul className="points-rows" ref={list}>
        {students.map((student, at) => {
          const balance =
            points.purses.find(({ studentId }) => studentId === student.id)?.balance ?? 0;
          const byDigit = (event: KeyboardEvent) => {
            if (event.repeat || !/^[1-9]$/.test(event.key)) return move(event, at);
            const privilege = privileges[Number(event.key) - 1];
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
                {privileges.map((privilege, place) => {
                  return privilege.notFor.includes(student.id) ? (
                    <span key={privilege.id} className="points-key-gap" />
                  ) : (
                    <Button
                      key={privilege.id}
                      isDisabled={privilege.price > balance}
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
