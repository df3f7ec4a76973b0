import "@fontsource-variable/atkinson-hyperlegible-next";
import "../../src/tokens.css";
import "../../src/base.css";
import { useState } from "react";
import { CheckboxGroup } from "react-aria-components";
import { createRoot } from "react-dom/client";
import { Picture } from "../../src/class/pictures/picture.tsx";
import { pictureNames } from "../../src/class/pictures/picture-names.ts";
import { Button } from "../../src/parts/button.tsx";
import { CheckBox } from "../../src/parts/check-box.tsx";
import { Dialog } from "../../src/parts/dialog.tsx";
import { Choices, NumberField, Pick, Switch, TextField } from "../../src/parts/field.tsx";
import { Menu } from "../../src/parts/menu.tsx";
import { DayField } from "../../src/parts/moment-field.tsx";
import { More } from "../../src/parts/more.tsx";
import { Notice } from "../../src/parts/notice.tsx";
import { Page, Section } from "../../src/parts/page.tsx";
import { TextProvider } from "../../src/text/text.tsx";

// Every part that screens are made of, on one page: npm run parts. It is no screen of the app and never ships.

const themes = ["light", "dark", "contrast"] as const;
const looks = ["main", "plain", "quiet", "danger"] as const;

function Buttons() {
  return (
    <Section title="Buttons: four ranks">
      <div style={{ display: "flex", flexWrap: "wrap", gap: "var(--gap-3)" }}>
        {looks.map((look) => (
          <Button key={look} look={look}>
            {look}
          </Button>
        ))}
        {looks.map((look) => (
          <Button key={look} look={look} isDisabled>
            {look}, disabled
          </Button>
        ))}
        <Button look="main" size="large">
          main, large
        </Button>
        <Menu
          label="A menu"
          entries={[
            { id: "one", label: "An entry", onPress: () => undefined },
            { id: "two", label: "Erase for good", onPress: () => undefined, isDanger: true },
          ]}
        />
      </div>
    </Section>
  );
}

function Fields() {
  const [text, setText] = useState("Words");
  const [number, setNumber] = useState(5);
  const [choice, setChoice] = useState<"one" | "two">("one");
  const [isOn, setOn] = useState(true);
  const [day, setDay] = useState("2026-11-28");
  const choices = [
    { value: "one", label: "One", help: "A sentence that explains it." },
    { value: "two", label: "Two" },
  ] as const;
  return (
    <Section title="Fields">
      <TextField label="Text" value={text} onChange={setText} help="A line of help." />
      <TextField label="With a problem" value="" onChange={setText} problem="Write a name." />
      <NumberField label="Number" value={number} onChange={setNumber} unit="minutes" />
      <Choices label="Choices" value={choice} onChange={setChoice} choices={choices} />
      <Choices inRow label="In a row" value={choice} onChange={setChoice} choices={choices} />
      <Pick label="A list" value={choice} onChange={setChoice} choices={choices} />
      <Switch label="A switch" value={isOn} onChange={setOn} />
      <DayField label="A day" value={day} onChange={setDay} />
      <CheckboxGroup aria-label="Boxes" defaultValue={["a"]}>
        <CheckBox value="a">Chosen</CheckBox>
        <CheckBox value="b">Not chosen</CheckBox>
      </CheckboxGroup>
    </Section>
  );
}

function Others() {
  const [isOpen, setOpen] = useState(false);
  return (
    <Section title="Everything else">
      <Notice title="A note">It is read in turn.</Notice>
      <Notice kind="caution" title="A caution">
        It is read at once.
      </Notice>
      <More label="More, closed until asked for">
        <p>What only some want to see.</p>
      </More>
      <div>
        <Button onPress={() => setOpen(true)}>Open a dialog</Button>
      </div>
      <Dialog
        title="Erase for good?"
        isOpen={isOpen}
        isAlert
        onClose={() => setOpen(false)}
        actions={
          <>
            <Button onPress={() => setOpen(false)}>Cancel</Button>
            <Button look="danger" onPress={() => setOpen(false)}>
              Erase
            </Button>
          </>
        }
      >
        <p>This cannot be undone.</p>
      </Dialog>
      <div style={{ display: "flex", flexWrap: "wrap", gap: "var(--gap-2)" }}>
        {pictureNames.map((name) => (
          <Picture key={name} name={name} />
        ))}
      </div>
    </Section>
  );
}

function Parts() {
  return (
    <TextProvider language="en">
      <Page
        title="All parts"
        lead="What screens are made of. This page is for developers and never ships."
        actions={themes.map((theme) => (
          <Button
            key={theme}
            onPress={() => {
              document.documentElement.dataset.theme = theme;
            }}
          >
            {theme}
          </Button>
        ))}
      >
        <Buttons />
        <Fields />
        <Others />
      </Page>
    </TextProvider>
  );
}

const place = document.getElementById("app");
if (place !== null) createRoot(place).render(<Parts />);
