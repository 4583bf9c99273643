import type { ReplayPlayer } from "./player";

/** What a key does to a replay. */
export type ReplayKey =
  | { readonly do: "toggle" }
  | { readonly do: "edit"; readonly step: 1 | -1 }
  | { readonly do: "leap"; readonly by: number }
  | { readonly do: "chapter"; readonly step: 1 | -1 }
  | { readonly do: "begin" | "end" };

/** How far Shift and an arrow go, in ms. */
export const LEAP = 10_000;

type Pressed = {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
};

/** Null where a key means nothing to a replay. */
export function replayKey({ key, shiftKey, ctrlKey, metaKey, altKey }: Pressed): ReplayKey | null {
  if (ctrlKey || metaKey || altKey) return null;
  switch (key) {
    case " ":
      return { do: "toggle" };
    case "ArrowRight":
      return shiftKey ? { do: "leap", by: LEAP } : { do: "edit", step: 1 };
    case "ArrowLeft":
      return shiftKey ? { do: "leap", by: -LEAP } : { do: "edit", step: -1 };
    case "PageDown":
      return { do: "chapter", step: 1 };
    case "PageUp":
      return { do: "chapter", step: -1 };
    case "Home":
      return { do: "begin" };
    case "End":
      return { do: "end" };
    default:
      return null;
  }
}

/** Does what a key means. `chapters` are the sequences at which chapters begin, rising. */
export function pressReplayKey(meaning: ReplayKey, player: ReplayPlayer, chapters: readonly number[]): void {
  const { at, time, isPlaying } = player.getState();
  switch (meaning.do) {
    case "toggle":
      if (isPlaying) player.pause();
      else player.play();
      return;
    case "edit":
      player.stepEdit(meaning.step);
      return;
    case "leap":
      player.goToTime(time + meaning.by);
      return;
    case "chapter": {
      const to = nextChapter(chapters, at, meaning.step);
      if (to !== null) player.goTo(to);
      return;
    }
    case "begin":
      player.goTo(0);
      return;
    case "end":
      player.goTo(player.last);
      return;
  }
}

/** Where the next chapter begins, or the one before; null where there is none. */
export function nextChapter(chapters: readonly number[], at: number, step: 1 | -1): number | null {
  const beyond = chapters.filter((each) => (step === 1 ? each > at : each < at));
  return (step === 1 ? beyond[0] : beyond.at(-1)) ?? null;
}
