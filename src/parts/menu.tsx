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

/** Everything that can be done with one row, behind one button. */
export function Menu({ label, entries }: { label: string; entries: readonly MenuEntry[] }) {
  return (
    <MenuTrigger>
      <AriaButton className="button button-quiet button-normal menu-button" aria-label={label}>
        <svg className="menu-dots" viewBox="0 0 20 6" aria-hidden="true">
          <circle cx="3" cy="3" r="2" />
          <circle cx="10" cy="3" r="2" />
          <circle cx="17" cy="3" r="2" />
        </svg>
      </AriaButton>
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
