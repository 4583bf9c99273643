import dynamic from "next/dynamic";
import type { LinesPanelProps } from "./LinesPanel";
import type { ZeroingBarProps } from "./ZeroingBar";
import type { ZeroingLayerProps } from "./ZeroingLayer";
import type { ZeroingPanelProps } from "./ZeroingPanel";

// Loaded after the room, where something is checked or can be.

/** Where the server has other pages by now than this one. */
function NotLoaded() {
  return <p>Reload the page to have something checked here.</p>;
}

const Nothing = () => null;

export const LinesPlace = dynamic<LinesPanelProps>(() => import("./LinesPanel").catch(() => ({ default: NotLoaded })), {
  ssr: false,
});
export const ZeroingPlace = dynamic<ZeroingPanelProps>(
  () => import("./ZeroingPanel").catch(() => ({ default: NotLoaded })),
  { ssr: false },
);
export const ZeroingBarPlace = dynamic<ZeroingBarProps>(
  () => import("./ZeroingBar").catch(() => ({ default: Nothing })),
  { ssr: false },
);
export const ZeroingLayerPlace = dynamic<ZeroingLayerProps>(
  () => import("./ZeroingLayer").catch(() => ({ default: Nothing })),
  { ssr: false },
);
