import { useQuery } from "@tanstack/react-query";
import { useEffect, useRef, useState } from "react";
import type { PointsBoard, OwnPurse as Purse } from "../../../shared/api/points.ts";
import { useConnection } from "../../api/context.tsx";
import { useTell } from "../../api/queries.ts";
import { Problem } from "../../parts/problem.tsx";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useAfterRest } from "../../parts/use-after-rest.ts";
import { useSay } from "../../text/text.tsx";
import { Picture } from "../pictures/picture.tsx";
import { pictureNamed } from "../pictures/picture-names.ts";
import { StudentFace } from "./student-face.tsx";

/** A purse closes by itself so long after the last press on it, in ms. */
const closesAfterMs = 8_000;

interface OwnPurseProps {
  student: PointsBoard["students"][number];
  onClose: () => void;
}

/** One student's points: how many, earned and spent today, and what they are saved for. */
export function OwnPurse({ student, onClose }: OwnPurseProps) {
  const say = useSay();
  const { api } = useConnection();
  const studentId = student.id;
  const place = useRef<HTMLElement>(null);
  const [pressed, setPressed] = useState(0);
  const purse = useQuery({
    queryKey: ["points", "own-purse", studentId],
    queryFn: () => api.points.ownPurse({ studentId }),
    // Nobody's purse is kept once it is closed.
    gcTime: 0,
  });
  const save = useTell((to, privilegeId: string | null) =>
    to.points.saveFor({ studentId, privilegeId }),
  );
  useAfterRest([pressed], closesAfterMs, onClose);
  useEffect(() => place.current?.focus(), []);
  return (
    <section ref={place} className="own-purse" tabIndex={-1} aria-label={student.name}>
      <StudentFace student={student} />
      {purse.data === undefined ? null : (
        <Contents
          purse={purse.data}
          onSave={(id) => {
            setPressed((now) => now + 1);
            save.mutate(id);
          }}
        />
      )}
      <Problem error={purse.error ?? save.error} />
      <SteadyButton className="own-purse-done" onPress={onClose}>
        {say("purse.done")}
      </SteadyButton>
    </section>
  );
}

function Contents({
  purse,
  onSave,
}: {
  purse: Purse;
  onSave: (privilegeId: string | null) => void;
}) {
  const say = useSay();
  const { balance, earnedToday, spentToday, privileges, savingFor } = purse;
  const wished = privileges.find(({ id }) => id === savingFor);
  return (
    <>
      <p className="own-purse-balance">{say("points.count", { points: balance })}</p>
      <p>
        {say("purse.today", { earned: earnedToday, spent: spentToday })}{" "}
        {wished === undefined
          ? ""
          : say("purse.saving", {
              privilege: wished.name,
              missing: Math.max(0, wished.price - balance),
            })}
      </p>
      {privileges.length === 0 ? null : <p className="own-purse-ask">{say("purse.saveFor")}</p>}
      <ul className="own-purse-wishes">
        {privileges.map(({ id, name, picture, price }) => {
          const drawn = pictureNamed(picture);
          return (
            <li key={id}>
              <SteadyButton
                className="own-purse-wish"
                look={id === savingFor ? "main" : "plain"}
                aria-pressed={id === savingFor}
                onPress={() => onSave(id === savingFor ? null : id)}
              >
                {drawn === null ? null : <Picture name={drawn} />}
                <span>{name}</span>
                <span className="own-purse-price">
                  {price <= balance
                    ? say("purse.enough", { points: price })
                    : say("purse.more", { points: price - balance })}
                </span>
              </SteadyButton>
            </li>
          );
        })}
      </ul>
    </>
  );
}
