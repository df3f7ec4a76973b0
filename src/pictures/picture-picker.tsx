import { Label, Radio, RadioGroup, Text } from "react-aria-components";
import { useSay } from "../text/text.tsx";
import { Picture } from "./picture.tsx";
import { pictureLabel, pictureNamed, pictureNames } from "./picture-names.ts";

const none = "none";

/** Chooses one of the built-in pictures, or none. */
export function PicturePicker(props: {
  value: string | null;
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
        {pictureNames.map((name) => (
          <Radio
            key={name}
            value={name}
            className="picture-choice"
            aria-label={say(pictureLabel(name))}
          >
            <Picture name={name} />
          </Radio>
        ))}
      </div>
      <Text slot="description" className="field-help">
        {say("picture.help")}
      </Text>
    </RadioGroup>
  );
}
