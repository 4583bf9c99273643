import type { InkMark } from "../../shared/board";
import { unreachable } from "../../shared/quantity";
import type { FigureLayers } from "../figure";
import { HIGHLIGHTER_OPACITY, inkShade, type Paper } from "./inkColours";
import { type InkDrawing, inkBox, layersOf } from "./inkDrawing";
import { markPath, widthOf } from "./inkPath";
import { isMathFace, type NotePiece } from "./noteDrawing";

/** Ink as SVG to go with a figure: highlighter beneath the circuit, all else above it. */
export function inkSvg(drawing: InkDrawing, paper: Paper): FigureLayers {
  const { beneath, above } = layersOf(drawing.marks);
  return {
    beneath: <Lines marks={beneath} paper={paper} />,
    above: (
      <>
        <Lines marks={above} paper={paper} />
        {drawing.notes.map(({ note, pieces }) => (
          <g key={note.id} data-mark={note.id}>
            <title>{note.text}</title>
            {pieces.map((piece, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of one note have no identity but their place
              <Piece key={i} piece={piece} />
            ))}
          </g>
        ))}
      </>
    ),
    box: inkBox(drawing),
  };
}

function Lines({ marks, paper }: { readonly marks: readonly InkMark[]; readonly paper: Paper }) {
  return marks.map((mark) => (
    <path
      key={mark.id}
      data-mark={mark.id}
      d={markPath(mark)}
      fill="none"
      stroke={inkShade(mark.colour, paper)}
      strokeWidth={widthOf(mark)}
      strokeOpacity={mark.kind === "highlighter" ? HIGHLIGHTER_OPACITY : undefined}
      strokeLinecap="round"
      strokeLinejoin="round"
    />
  ));
}

function Piece({ piece }: { readonly piece: NotePiece }) {
  switch (piece.kind) {
    case "text":
      return <Letters piece={piece} />;
    case "line": {
      const dash = piece.isDashed ? 3 * piece.width : undefined;
      const [from, to] = [piece.from, piece.to];
      const path = `M${from.x} ${from.y}L${to.x} ${to.y}`;
      return <path d={path} stroke={piece.colour} strokeWidth={piece.width} strokeDasharray={dash} />;
    }
    case "shape": {
      const { x, y, width, height } = piece.clip;
      const look =
        piece.width === null
          ? { fill: piece.colour }
          : { stroke: piece.colour, strokeWidth: piece.width, fill: "none" };
      // A picture in the picture cuts off what leaves it, in every program and without a name that must be there once.
      return (
        <svg aria-hidden="true" x={x} y={y} width={width} height={height} viewBox={`${x} ${y} ${width} ${height}`}>
          <path d={piece.path} transform={`matrix(${piece.matrix.join(" ")})`} {...look} />
        </svg>
      );
    }
    default:
      return unreachable(piece);
  }
}

function Letters({ piece }: { readonly piece: Extract<NotePiece, { kind: "text" }> }) {
  const { text, x, y, width, face, size, colour } = piece;
  // Words keep their length where a program sets them in another font, so that they do not run into what follows.
  const fit = isMathFace(face) || text.length < 2 ? {} : { textLength: width, lengthAdjust: "spacingAndGlyphs" };
  const font = isMathFace(face)
    ? { fontFamily: `${face.family}, KaTeX_Main, serif`, fontWeight: face.weight, fontStyle: face.style }
    : { fontWeight: face.weight === "400" ? undefined : face.weight };
  return (
    <text x={x} y={y} fontSize={size} fill={colour} {...font} {...fit}>
      {text}
    </text>
  );
}
