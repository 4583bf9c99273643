import { growBox } from "./box";
import type { Box, Figure, Label, Run, Stroke, Tone } from "./figure";
import { LINE_HEIGHT } from "./text";
import { INDEX_SCALE, SYMBOL_SCALE } from "./textWidth";
import { type Paper, toneColour, toneVariable } from "./theme";

type Props = {
  readonly figure: Figure;
  /** How many times heavier lines are drawn, so that a small figure stays legible. */
  readonly weight?: number;
  readonly className?: string;
  /** Colours to write out, for a figure that leaves the page; else those of the page's own paper. */
  readonly paper?: Paper;
};

/** A figure as SVG, scaled into whatever box its class gives it. Decorative: the same is said in words nearby. */
export function FigureSvg({ figure, weight = 1, className, paper }: Props) {
  const view = growBox(figure.extent, 8);
  return (
    <svg className={className} viewBox={viewBox(view)} aria-hidden="true" focusable="false">
      {figure.strokes.map((stroke, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: strokes have no identity, and a figure is replaced whole
        <path key={i} {...pathProps(stroke, weight, paper)} />
      ))}
      {figure.labels.map((label, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: as above
        <LabelText key={i} label={label} paper={paper} />
      ))}
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
              {run.text}
            </tspan>
          ))}
        </text>
      ))}
    </>
  );
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
