import { useState } from "react";
import { CheckboxGroup, Label } from "react-aria-components";
import { dayNumber, weekdayOf } from "../../../shared/calendar/calendar.ts";
import { neverAPrivilege } from "../../../shared/points/never-a-privilege.ts";
import type { Privilege } from "../../../shared/roster/privilege.ts";
import { useStudents, useTell } from "../../api/queries.ts";
import { pictureLabel, pictureNames } from "../../class/pictures/picture-names.ts";
import { Button } from "../../parts/button.tsx";
import { CheckBox } from "../../parts/check-box.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { type Choice, Choices, NumberField, Pick, TextField } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

interface PrivilegeFormProps {
  groupId: string;
  /** Null for a new one. */
  privilege: Privilege | null;
  prices: { readonly low: number; readonly middle: number; readonly high: number };
  /** School-local day. */
  today: string;
  onClose: () => void;
}

/** Prices change on this day of the week alone. */
const monday = 1;
/** Stands for no picture in the list. */
const noPicture = "none";
const bands = ["1", "2", "3"] as const;

/** One privilege: what it is, what it costs, how often and for whom. */
export function PrivilegeForm({ groupId, privilege, prices, today, onClose }: PrivilegeFormProps) {
  const say = useSay();
  const students = useStudents(groupId).data ?? [];
  const [facts, setFacts] = useState<Omit<Privilege, "id">>(
    privilege ?? {
      groupId,
      name: "",
      picture: null,
      price: prices.low,
      band: 1,
      places: null,
      minutes: null,
      perDay: null,
      notFor: [],
    },
  );
  const change = (part: Partial<Privilege>) => setFacts((now) => ({ ...now, ...part }));
  const save = useTell((api, kept: Omit<Privilege, "id">) =>
    privilege === null
      ? api.points.addPrivilege(kept)
      : api.points.savePrivilege({ ...kept, id: privilege.id }),
  );
  const name = facts.name.trim();
  const word = neverAPrivilege(name);
  const isNewPrice = privilege !== null && facts.price !== privilege.price;
  const priceOf = { 1: prices.low, 2: prices.middle, 3: prices.high };
  return (
    <Dialog
      title={say(privilege === null ? "points.newPrivilege" : "points.changePrivilege")}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{say("act.cancel")}</Button>
          <Button
            look="main"
            isDisabled={name === "" || save.isPending}
            onPress={() => save.mutate({ ...facts, name }, { onSuccess: onClose })}
          >
            {say("act.save")}
          </Button>
        </>
      }
    >
      <TextField
        label={say("points.privilegeName")}
        value={facts.name}
        onChange={(next) => change({ name: next })}
        maxLength={60}
        autoFocus
      />
      {word === null ? null : <Notice kind="caution">{say("points.never", { word })}</Notice>}
      <Choices
        label={say("points.band")}
        inRow
        value={String(facts.band) as (typeof bands)[number]}
        choices={bands.map((value) => ({ value, label: say(`points.band.${value}`) }))}
        onChange={(value) => {
          const band = value === "1" ? 1 : value === "2" ? 2 : 3;
          change({ band, price: priceOf[band] });
        }}
      />
      <div className="points-fields">
        <NumberField
          label={say("points.price")}
          value={facts.price}
          minValue={1}
          maxValue={1000}
          step={1}
          onChange={(price) => change({ price: Number.isFinite(price) ? price : 1 })}
        />
        {(["places", "perDay", "minutes"] as const).map((field) => (
          <NumberField
            key={field}
            label={say(`points.${field}`)}
            help={say(field === "minutes" ? "points.zeroIsNoTimer" : "points.zeroIsAny")}
            value={facts[field] ?? 0}
            minValue={0}
            maxValue={field === "perDay" ? 20 : 60}
            step={1}
            onChange={(value) => change({ [field]: value > 0 ? value : null })}
          />
        ))}
      </div>
      {isNewPrice && weekdayOf(dayNumber(today)) !== monday ? (
        <Notice kind="caution">{say("points.priceOnMonday")}</Notice>
      ) : null}
      <Pick
        label={say("points.picture")}
        value={facts.picture ?? noPicture}
        onChange={(picture) => change({ picture: picture === noPicture ? null : picture })}
        choices={[
          { value: noPicture, label: say("points.noPicture") },
          ...pictureNames.map(
            (value): Choice<string> => ({ value, label: say(pictureLabel(value)) }),
          ),
        ]}
      />
      <CheckboxGroup
        value={facts.notFor}
        onChange={(notFor) => change({ notFor })}
        className="points-not-for"
      >
        <Label>{say("points.notFor")}</Label>
        {students.map(({ id, name: student }) => (
          <CheckBox key={id} value={id}>
            {student}
          </CheckBox>
        ))}
      </CheckboxGroup>
      <Problem error={save.error} />
    </Dialog>
  );
}
