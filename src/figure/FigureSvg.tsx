import type { ReactNode } from "react";
import { boxOfBoxes, growBox } from "./box";
import type { Box, Figure, Label, Run, Stroke, Tone } from "./figure";
import { LINE_HEIGHT } from "./text";
import { INDEX_SCALE, SYMBOL_SCALE } from "./textWidth";
import { type Paper, toneColour, toneVariable } from "./theme";

/** What lies on a figure besides the circuit, as SVG in the figure's own pixels, and its box; null for nothing. */
export type FigureLayers = { readonly beneath: ReactNode; readonly above: ReactNode; readonly box: Box | null };

type Props = {
  readonly figure: Figure;
  readonly layers?: FigureLayers;
  /** How many times heavier lines are drawn, so that a small figure stays legible. */
  readonly weight?: number;
  readonly className?: string;
  /** Colours to write out, for a figure that leaves the page; else those of the page's own paper. */
  readonly paper?: Paper;
};

/** A figure as SVG, scaled into whatever box its class gives it. Decorative: the same is said in words nearby. */
export function FigureSvg({ figure, layers, weight = 1, className, paper }: Props) {
  const view = growBox(layers?.box ? boxOfBoxes([figure.extent, layers.box]) : figure.extent, 8);
  return (
    <svg className={className} viewBox={viewBox(view)} aria-hidden="true" focusable="false">
      {layers?.beneath}
      {figure.strokes.map((stroke, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: strokes have no identity, and a figure is replaced whole
        <path key={i} {...pathProps(stroke, weight, paper)} />
      ))}
      {figure.labels.map((label, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: as above
        <LabelText key={i} label={label} paper={paper} />
      ))}
      {layers?.above}
    </svg>
  );
}

const viewBox = (box: Box) => `${box.x} ${box.y} ${box.width} ${box.height}`;

const colourOf = (tone: Tone, paper: Paper | undefined) => (paper ? toneColour(tone, paper) : toneVariable(tone));

function pathProps(stroke: Stroke, weight: number, paper: Paper | undefined) {
  const colour = colourOf(stroke.tone, paper);
  return {
    d: stroke.path,
    stroke: colour,
    strokeWidth: stroke.weight * weight,
    strokeDasharray: stroke.dash.map((dash) => dash * weight).join(" "),
    fill: stroke.fill === "none" ? "none" : stroke.fill === "paper" ? (paper?.sheet ?? "var(--sheet)") : colour,
    strokeLinecap: "round" as const,
    strokeLinejoin: "round" as const,
  };
}

function LabelText({ label, paper }: { readonly label: Label; readonly paper: Paper | undefined }) {
  const { box, align } = label;
  const x = align === "start" ? box.x : align === "end" ? box.x + box.width : box.x + box.width / 2;
  const step = label.size * LINE_HEIGHT;
  return (
    <>
      {label.lines.map((runs, i) => (
        <text
          // biome-ignore lint/suspicious/noArrayIndexKey: lines of one label have no identity
          key={i}
          x={x}
          y={box.y + step * i + label.size}
          textAnchor={align}
          fontSize={label.size}
          fill={colourOf(label.tone, paper)}
        >
          {runs.map((run, k) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: as above
            <tspan key={k} {...runProps(run, label.size)}>
              {spaced(run.text)}
            </tspan>
          ))}
        </text>
      ))}
    </>
  );
}

/** Between a name and its value stand two spaces, which SVG takes for one, by rules that differ from program to program. */
function spaced(text: string): string {
  return text.replaceAll("  ", "\u00a0\u00a0");
}

function runProps({ style }: Run, size: number) {
  switch (style) {
    case "plain":
      return {};
    case "bold":
      return { fontWeight: 700 };
    case "symbol":
      return { fontFamily: "KaTeX_Math, serif", fontStyle: "italic", fontSize: size * SYMBOL_SCALE };
    case "index":
      return { fontSize: size * INDEX_SCALE, baselineShift: "sub" };
  }
}
