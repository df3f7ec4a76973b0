import {
  Button as AriaButton,
  Menu as AriaMenu,
  MenuItem,
  MenuTrigger,
  Popover,
} from "react-aria-components";
import "./menu.css";

export interface MenuEntry {
  readonly id: string;
  readonly label: string;
  readonly onPress: () => void;
  /** Whether it takes something away for good. */
  readonly isDanger?: boolean;
}

interface MenuProps {
  label: string;
  entries: readonly MenuEntry[];
  /** Whether the label stands on the button; else three dots do. */
  isWorded?: boolean;
}

/** Everything that can be done with one row, or the kinds of what can be added, behind one button. */
export function Menu({ label, entries, isWorded = false }: MenuProps) {
  return (
    <MenuTrigger>
      {isWorded ? (
        <AriaButton className="button button-plain button-normal">
          {label}
          <svg className="menu-arrow" viewBox="0 0 12 8" aria-hidden="true">
            <path d="M1 1l5 5 5-5" />
          </svg>
        </AriaButton>
      ) : (
        <AriaButton className="button button-quiet button-normal menu-button" aria-label={label}>
          <svg className="menu-dots" viewBox="0 0 20 6" aria-hidden="true">
            <circle cx="3" cy="3" r="2" />
            <circle cx="10" cy="3" r="2" />
            <circle cx="17" cy="3" r="2" />
          </svg>
        </AriaButton>
      )}
      <Popover className="menu" placement="bottom end">
        <AriaMenu
          className="menu-list"
          onAction={(id) => entries.find((entry) => entry.id === id)?.onPress()}
        >
          {entries.map(({ id, label: words, isDanger }) => (
            <MenuItem key={id} id={id} className={isDanger ? "menu-item menu-danger" : "menu-item"}>
              {words}
            </MenuItem>
          ))}
        </AriaMenu>
      </Popover>
    </MenuTrigger>
  );
}
