"use client";

import { type PaperSettings, storeSettings } from "../settings";
import { Sheet } from "./Sheet";
import styles from "./sheets.module.css";

type Props = { readonly settings: PaperSettings; readonly close: () => void };

/** How this person likes the page to look. Others in the room are not touched by it. */
export function PaperSheet({ settings, close }: Props) {
  return (
    <Sheet title="Paper" close={close}>
      <fieldset className={styles.choice}>
        <legend>Colour</legend>
        <Choice name="paper" value="light" now={settings} text="Light paper" />
        <Choice name="paper" value="dark" now={settings} text="Dark paper" />
      </fieldset>
      <fieldset className={styles.choice}>
        <legend>Symbols</legend>
        <Choice name="symbols" value="iec" now={settings} text="IEC 60617: a resistor is a rectangle" />
        <Choice name="symbols" value="ieee" now={settings} text="IEEE 315: a resistor is a zigzag" />
      </fieldset>
      <fieldset className={styles.choice}>
        <legend>Equations of worked lines</legend>
        <Choice name="equations" value="symbols" now={settings} text="Symbols first, then numbers" />
        <Choice name="equations" value="numbers" now={settings} text="Numbers first, the formula beneath" />
      </fieldset>
      <p>Only you see it so. What is printed is black on white.</p>
    </Sheet>
  );
}

type ChoiceProps<K extends keyof PaperSettings> = {
  readonly name: K;
  readonly value: PaperSettings[K];
  readonly now: PaperSettings;
  readonly text: string;
};

function Choice<K extends keyof PaperSettings>({ name, value, now, text }: ChoiceProps<K>) {
  return (
    <label className={styles.option}>
      <input
        type="radio"
        name={name}
        checked={now[name] === value}
        onChange={() => storeSettings({ ...now, [name]: value })}
      />
      {text}
    </label>
  );
}
