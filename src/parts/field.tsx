import { type ReactNode, useId } from "react";
import {
  Button as AriaButton,
  NumberField as AriaNumberField,
  Select as AriaSelect,
  Switch as AriaSwitch,
  TextField as AriaTextField,
  FieldError,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Radio,
  RadioGroup,
  SelectValue,
  Slider,
  SliderThumb,
  SliderTrack,
  Text,
  TextArea,
} from "react-aria-components";
import "./field.css";

interface FieldProps {
  label: string;
  /** One line of help under the field. */
  help?: ReactNode;
  /** What is wrong and what to do; shows the field as invalid. */
  problem?: string | undefined;
}

interface TextFieldProps extends FieldProps {
  value: string;
  onChange: (value: string) => void;
  rows?: number;
  maxLength?: number;
  autoFocus?: boolean;
  /** Which keys a touch screen offers. */
  inputMode?: "numeric";
  /** What is typed is not shown. */
  type?: "password";
  autoComplete?: "off";
}

function Help({ help, problem }: Pick<FieldProps, "help" | "problem">) {
  return (
    <>
      {help === undefined ? null : (
        <Text slot="description" className="field-help">
          {help}
        </Text>
      )}
      <FieldError className="field-problem">{problem}</FieldError>
    </>
  );
}

/** Free text on one line, or on `rows` lines. */
export function TextField({ label, help, problem, rows, ...rest }: TextFieldProps) {
  return (
    <AriaTextField {...rest} isInvalid={problem !== undefined} className="field">
      <Label className="field-label">{label}</Label>
      {rows === undefined ? (
        <Input className="field-input" />
      ) : (
        <TextArea className="field-input" rows={rows} />
      )}
      <Help help={help} problem={problem} />
    </AriaTextField>
  );
}

interface NumberFieldProps extends FieldProps {
  value: number;
  onChange: (value: number) => void;
  minValue?: number;
  maxValue?: number;
  step?: number;
  unit?: string;
}

/** A number with its unit beside it; arrow keys step. */
export function NumberField({ label, help, problem, unit, ...rest }: NumberFieldProps) {
  return (
    <AriaNumberField {...rest} isInvalid={problem !== undefined} className="field">
      <Label className="field-label">{label}</Label>
      <div className="field-with-unit">
        <Input className={`field-input field-number`} />
        {unit === undefined ? null : <span className="field-unit">{unit}</span>}
      </div>
      <Help help={help} problem={problem} />
    </AriaNumberField>
  );
}

export interface Choice<Value extends string> {
  value: Value;
  label: string;
  /** One sentence that explains the choice. */
  help?: string;
  /** The language of the label, where it is not the page's. */
  lang?: string | undefined;
}

interface ChoiceProps<Value extends string> extends FieldProps {
  value: Value;
  onChange: (value: Value) => void;
  choices: readonly Choice<Value>[];
}

/** A few choices, all in sight, each with a sentence when it needs one. */
export function Choices<Value extends string>(props: ChoiceProps<Value> & { inRow?: boolean }) {
  const { label, help, problem, choices, onChange, value, inRow } = props;
  const pick = (picked: string) => {
    const found = choices.find((choice) => choice.value === picked);
    if (found) onChange(found.value);
  };
  return (
    <RadioGroup value={value} onChange={pick} isInvalid={problem !== undefined} className="field">
      <Label className="field-label">{label}</Label>
      <div className={inRow ? "field-choice-row" : "field-choice-list"}>
        {choices.map((choice) => (
          <Radio key={choice.value} value={choice.value} className="field-choice">
            <span className="field-choice-label" lang={choice.lang}>
              {choice.label}
            </span>
            {choice.help === undefined ? null : (
              <span className="field-choice-help">{choice.help}</span>
            )}
          </Radio>
        ))}
      </div>
      <Help help={help} problem={problem} />
    </RadioGroup>
  );
}

/** One of many choices in a list that opens. */
export function Pick<Value extends string>(props: ChoiceProps<Value>) {
  const { label, help, problem, choices, onChange, value } = props;
  return (
    <AriaSelect
      value={value}
      onChange={(key) => {
        const found = choices.find((choice) => choice.value === key);
        if (found) onChange(found.value);
      }}
      isInvalid={problem !== undefined}
      className="field"
    >
      <Label className="field-label">{label}</Label>
      <AriaButton className="field-pick">
        <SelectValue />
        <span aria-hidden="true">▾</span>
      </AriaButton>
      <Help help={help} problem={problem} />
      <Popover className="field-popover">
        <ListBox className="field-list">
          {choices.map((choice) => (
            <ListBoxItem
              key={choice.value}
              id={choice.value}
              textValue={choice.label}
              className="field-list-item"
            >
              {choice.label}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </AriaSelect>
  );
}

/** On or off, at once. */
export function Switch(props: {
  label: string;
  value: boolean;
  onChange: (value: boolean) => void;
}) {
  return (
    <AriaSwitch isSelected={props.value} onChange={props.onChange} className="field-switch">
      <span className="field-switch-track" aria-hidden="true" />
      {props.label}
    </AriaSwitch>
  );
}

interface RangeProps {
  label: string;
  value: number;
  onChange: (value: number) => void;
  /** The least it can be; 0 when left out. */
  least?: number;
  /** Words the value, also for screen readers. */
  worded: string;
  /** What is wrong and what to do. */
  problem?: string | undefined;
}

/** A share between 0 and 1, by hand or arrow keys. */
export function Range({ label, value, onChange, worded, problem, least = 0 }: RangeProps) {
  const problemId = useId();
  return (
    <Slider
      value={Math.round(value * 100)}
      onChange={(next) => onChange(next / 100)}
      minValue={Math.round(least * 100)}
      maxValue={100}
      step={5}
      className="field"
    >
      <div className="field-range-head">
        <Label className="field-label">{label}</Label>
        <span>{worded}</span>
      </div>
      <SliderTrack className="field-track">
        <SliderThumb
          className="field-thumb"
          {...(problem === undefined ? {} : { "aria-describedby": problemId })}
        />
      </SliderTrack>
      {problem === undefined ? null : (
        <span id={problemId} className="field-problem">
          {problem}
        </span>
      )}
    </Slider>
  );
}
