/** One box of a sheet that is typed in: reached by keys, read out by its label. */
export function SheetBox(props: {
  label: string;
  text: string;
  isBad: boolean;
  isPast: boolean;
  placeId: string;
  isHere: boolean;
  onFocus: () => void;
}) {
  return (
    <td
      role="gridcell"
      className={`cards-box ${props.isBad ? "cards-bad" : ""} ${props.isPast ? "cards-past" : ""}`}
      data-place={props.placeId}
      tabIndex={props.isHere ? 0 : -1}
      aria-label={props.label}
      aria-invalid={props.isBad}
      onFocus={props.onFocus}
    >
      {props.text}
    </td>
  );
}
