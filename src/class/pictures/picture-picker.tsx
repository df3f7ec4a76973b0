import { Label, Radio, RadioGroup, Text } from "react-aria-components";
import { useSay } from "../../text/text.tsx";
import { Picture } from "./picture.tsx";
import { type PictureName, pictureLabel, pictureNamed, pictureNames } from "./picture-names.ts";

const none = "none";

/** Chooses one of the built-in pictures that nobody else of the group has, or none. */
export function PicturePicker(props: {
  value: string | null;
  /** The name of the student who has a picture already. */
  owners: ReadonlyMap<PictureName, string>;
  onChange: (picture: string | null) => void;
}) {
  const say = useSay();
  return (
    <RadioGroup
      className="field"
      orientation="horizontal"
      value={pictureNamed(props.value) ?? none}
      onChange={(picked) => props.onChange(pictureNamed(picked))}
    >
      <Label className="field-label">{say("picture.label")}</Label>
      <div className="picture-pick">
        <Radio value={none} className="picture-choice picture-none">
          {say("picture.none")}
        </Radio>
        {pictureNames.map((name) => {
          const owner = props.owners.get(name);
          const label = say(pictureLabel(name));
          return (
            <Radio
              key={name}
              value={name}
              className="picture-choice"
              isDisabled={owner !== undefined}
              aria-label={owner === undefined ? label : say("picture.taken", { label, owner })}
            >
              <Picture name={name} />
              {owner === undefined ? null : (
                <span className="picture-owner" aria-hidden="true">
                  {owner}
                </span>
              )}
            </Radio>
          );
        })}
      </div>
      <Text slot="description" className="field-help">
        {say("picture.help")}
      </Text>
    </RadioGroup>
  );
}
