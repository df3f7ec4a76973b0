import type { ReactNode } from "react";
import { FieldError, Input, Label, Text, TextField } from "react-aria-components";

interface EntryFieldProps {
  label: string;
  help?: ReactNode;
  /** What is wrong with the text and how to write it. */
  problem?: string | undefined;
  unit?: string;
  text: string;
  onType: (text: string) => void;
}

/**
 * A number that is typed freely. Unlike a field that corrects what it does not understand, it never changes
 * a letter of what was typed; it says what it cannot read.
 */
export function EntryField({ label, help, problem, unit, text, onType }: EntryFieldProps) {
  return (
    <TextField
      value={text}
      onChange={onType}
      isInvalid={problem !== undefined}
      className="field"
      maxLength={24}
      autoComplete="off"
    >
      <Label className="field-label">{label}</Label>
      <div className="field-with-unit">
        <Input className="field-input field-number" />
        {unit === undefined ? null : <span className="field-unit">{unit}</span>}
      </div>
      {help === undefined ? null : (
        <Text slot="description" className="field-help">
          {help}
        </Text>
      )}
      <FieldError className="field-problem">{problem}</FieldError>
    </TextField>
  );
}
