import type { StandaloneSvg } from "./standaloneSvg";

/** Pixels for each CSS pixel: enough for print at 15 cm. */
const SCALE = 3;
/** Browsers refuse larger canvases, silently. */
const LONGEST_SIDE = 8192;

/** The drawing as a PNG image. */
export async function pngOf({ text, width, height }: StandaloneSvg): Promise<Blob> {
  const scale = Math.min(SCALE, LONGEST_SIDE / Math.max(width, height));
  const address = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await blobOf(canvas);
  } finally {
    URL.revokeObjectURL(address);
  }
}

function blobOf(canvas: HTMLCanvasElement): Promise<Blob> {
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("this browser makes no PNG of it"))), "image/png"),
  );
}
