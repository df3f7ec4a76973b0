/** One box of a sheet that is typed in: reached by keys, read out by its label and what is wrong with it. */
export function SheetBox(props: {
  label: string;
  text: string;
  isBad: boolean;
  /** Id of the text that says what is wrong; only of a bad box. */
  problemId?: string | undefined;
  isPast: boolean;
  placeId: string;
  isHere: boolean;
  onFocus: () => void;
}) {
  const problemId = props.isBad ? props.problemId : undefined;
  return (
    <td
      role="gridcell"
      className={`cards-box ${props.isBad ? "cards-bad" : ""} ${props.isPast ? "cards-past" : ""}`}
      data-place={props.placeId}
      tabIndex={props.isHere ? 0 : -1}
      aria-label={props.label}
      aria-invalid={props.isBad}
      aria-errormessage={problemId}
      aria-describedby={problemId}
      onFocus={props.onFocus}
    >
      {props.text}
    </td>
  );
}
